using BosFlow.Registration;

namespace BosFlow.Tests.Registration;

/// <summary>Displacement vectors on a grid that follow a known motion, with noise and disturbances added on demand.</summary>
internal sealed class VectorCloud
{
    private VectorCloud(double[] x, double[] y)
    {
        X = x;
        Y = y;
        U = new double[x.Length];
        V = new double[x.Length];
    }

    public double[] X { get; }

    public double[] Y { get; }

    public double[] U { get; }

    public double[] V { get; }

    public int Count => X.Length;

    public static VectorCloud Of(IPictureMotion motion, int columns, int rows, double spacing)
    {
        var cloud = new VectorCloud(new double[columns * rows], new double[columns * rows]);
        for (int i = 0; i < cloud.Count; i++)
        {
            cloud.X[i] = 15.5 + (spacing * (i % columns));
            cloud.Y[i] = 15.5 + (spacing * (i / columns));
            (cloud.U[i], cloud.V[i]) = motion.DisplacementAt(cloud.X[i], cloud.Y[i]);
        }

        return cloud;
    }

    public VectorCloud WithNoise(double sigma, Random random)
    {
        for (int i = 0; i < Count; i++)
        {
            U[i] += sigma * Gaussian(random);
            V[i] += sigma * Gaussian(random);
        }

        return this;
    }

    /// <summary>A plume about a vertical line: displacement towards the line, strongest beside it, over a share of the width.</summary>
    public VectorCloud WithPlume(double peak, double share)
    {
        double left = X.Min();
        double width = X.Max() - left;
        double axis = left + (0.45 * width);
        double halfWidth = share * width / 2;
        for (int i = 0; i < Count; i++)
        {
            double r = (X[i] - axis) / halfWidth;
            if (Math.Abs(r) >= 1)
                continue;
            U[i] -= peak * Math.Sin(Math.PI * r);
            V[i] += 0.3 * peak * Math.Cos(Math.PI * r / 2);
        }

        return this;
    }

    public MotionFitResult Fit(MotionModel model) => MotionFit.Fit(model, X, Y, U, V, []);

    public static double Gaussian(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

    /// <summary>Largest distance between two motions over the corners and the middle of a picture.</summary>
    public static double Distance(IPictureMotion a, IPictureMotion b, double width, double height)
    {
        double worst = 0;
        foreach ((double x, double y) in new[] { (0.0, 0.0), (width, 0), (0, height), (width, height), (width / 2, height / 2) })
        {
            (double ua, double va) = a.DisplacementAt(x, y);
            (double ub, double vb) = b.DisplacementAt(x, y);
            worst = Math.Max(worst, Math.Sqrt(((ua - ub) * (ua - ub)) + ((va - vb) * (va - vb))));
        }

        return worst;
    }
}
