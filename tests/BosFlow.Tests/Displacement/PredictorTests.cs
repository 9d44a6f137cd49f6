using BosFlow.Displacement;
using BosFlow.Registration;

namespace BosFlow.Tests.Displacement;

public sealed class PredictorTests
{
    private static readonly NodeGrid Grid = new(15.5, 17.5, 8, 9, 6);

    [Fact]
    public void Row_AffineMotionAndLinearField_IsExactEverywhere()
    {
        // Bilinear interpolation reproduces what is linear, and beyond the nodes the field goes on linearly.
        var motion = new PlanarMotion(1.004, 0.01, 3, -0.01, 0.996, -2, 0, 0);
        const int Width = 110, Height = 75;
        var predictor = new PredictorField(Grid, Width, Height);
        float[] extraU = new float[Grid.Count], extraV = new float[Grid.Count];
        for (int node = 0; node < Grid.Count; node++)
        {
            extraU[node] = (float)(0.02 * Grid.X(node % Grid.Columns));
            extraV[node] = (float)(-0.03 * Grid.Y(node / Grid.Columns));
        }

        predictor.Set(extraU, extraV, motion);
        float[] u = new float[Width + 64], v = new float[Width + 64];
        for (int y = 0; y < Height; y++)
        {
            predictor.Row(y, Width, u, v);
            for (int x = 0; x < Width; x++)
            {
                (double mu, double mv) = motion.DisplacementAt(x, y);
                Assert.Equal(mu + (0.02 * x), u[x], 5e-5);
                Assert.Equal(mv - (0.03 * y), v[x], 5e-5);
            }
        }
    }

    [Fact]
    public void AtNode_CurvedField_AllowsForTheSagOfTheLinesBetweenNodes()
    {
        // Mean over a window of two cells of the field as it deforms the picture, against the value at the node: with a curved field both have to differ as the curve itself does.
        const double Curvature = 4e-4;
        const int Width = 110, Height = 75;
        var predictor = new PredictorField(Grid, Width, Height);
        float[] u = new float[Grid.Count], v = new float[Grid.Count];
        for (int node = 0; node < Grid.Count; node++)
        {
            u[node] = (float)(Curvature * Math.Pow(Grid.X(node % Grid.Columns) - 50, 2));
            v[node] = (float)(Curvature * Math.Pow(Grid.Y(node / Grid.Columns) - 40, 2));
        }

        predictor.Set(u, v, PlanarMotion.Identity);
        const int Node = (2 * 9) + 4;
        float[] rowU = new float[Width + 64], rowV = new float[Width + 64];
        double left = 0;
        for (int y = -8; y < 8; y++)
        {
            int pixelY = (int)(Grid.Y(2) + 0.5) + y;
            predictor.Row(pixelY, Width, rowU, rowV);
            for (int x = -8; x < 8; x++)
            {
                int pixelX = (int)(Grid.X(4) + 0.5) + x;
                left += ((Curvature * Math.Pow(pixelX - 50, 2)) - rowU[pixelX]) / 256;
            }
        }

        // The rest that the window sees, put on top of the node, must be the window's mean less what the curve's own mean differs from the node.
        double meanOfCurve = Enumerable.Range(-8, 16).Average(x => Curvature * Math.Pow(Grid.X(4) + 0.5 + x - 50, 2)) - u[Node];
        Assert.Equal(u[Node] + (2 * Curvature * 64 / 12), predictor.AtNode(Node).U, 1e-5);
        Assert.Equal(v[Node] + (2 * Curvature * 64 / 12), predictor.AtNode(Node).V, 1e-5);
        // Measured against the true curve the result is the node's value again; pixels sample the cells, which leaves 1 / 256 of the sag.
        Assert.Equal(u[Node], predictor.AtNode(Node).U + left, 0.05 * meanOfCurve);
    }

    [Fact]
    public void Fill_MissingNodes_TakeTheirNeighboursAndNothingKnownGivesZero()
    {
        float[] values = [.. Enumerable.Repeat(float.NaN, Grid.Count)];
        PredictorUpdate.Fill(Grid, values);
        Assert.All(values, value => Assert.Equal(0, value));

        values = [.. Enumerable.Repeat(float.NaN, Grid.Count)];
        values[20] = 1.5f;
        PredictorUpdate.Fill(Grid, values);
        Assert.All(values, value => Assert.Equal(1.5f, value));
    }

    [Fact]
    public void Smooth_LinearField_StaysAsItIs()
    {
        float[] values = new float[Grid.Count];
        for (int node = 0; node < values.Length; node++)
            values[node] = (0.3f * (node % Grid.Columns)) - (0.7f * (node / Grid.Columns));
        float[] before = (float[])values.Clone();

        PredictorUpdate.Smooth(Grid, values, new float[Grid.Count], 1);

        for (int node = 0; node < values.Length; node++)
            Assert.Equal(before[node], values[node], 1e-5);
    }

    [Fact]
    public void Resample_LinearField_IsExactWithinTheSourceGrid()
    {
        var coarse = new NodeGrid(31.5, 31.5, 32, 4, 3);
        float[] values = new float[coarse.Count], target = new float[Grid.Count];
        for (int node = 0; node < values.Length; node++)
            values[node] = (float)((0.1 * coarse.X(node % 4)) + (0.2 * coarse.Y(node / 4)));

        PredictorUpdate.Resample(coarse, values, Grid, target);

        for (int node = 0; node < target.Length; node++)
        {
            double x = Math.Clamp(Grid.X(node % Grid.Columns), 31.5, 31.5 + 96), y = Math.Clamp(Grid.Y(node / Grid.Columns), 31.5, 31.5 + 64);
            Assert.Equal((0.1 * x) + (0.2 * y), target[node], 1e-4);
        }
    }
}
