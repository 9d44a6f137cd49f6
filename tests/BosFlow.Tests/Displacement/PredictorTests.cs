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

        predictor.SetMotion(motion);
        predictor.Set(extraU, extraV);
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
    public void Row_CurvedField_RunsThroughTheNodesOnTheCurve()
    {
        // What a window finds missing is added to the value at the node: an interpolation that sagged between the nodes would be counted twice.
        const double Curvature = 4e-4;
        const int Width = 110, Height = 75;
        var predictor = new PredictorField(Grid, Width, Height);
        float[] u = new float[Grid.Count], v = new float[Grid.Count];
        for (int node = 0; node < Grid.Count; node++)
        {
            u[node] = (float)(Curvature * Math.Pow(Grid.X(node % Grid.Columns) - 50, 2));
            v[node] = (float)(Curvature * Math.Pow(Grid.Y(node / Grid.Columns) - 40, 2));
        }

        predictor.SetMotion(PlanarMotion.Identity);
        predictor.Set(u, v);

        float[] rowU = new float[Width + 64], rowV = new float[Width + 64];
        int pixelY = (int)(Grid.Y(2) + 3);
        predictor.Row(pixelY, Width, rowU, rowV);
        const int Node = (2 * 9) + 4;
        Assert.Equal((u[Node], v[Node]), predictor.AtNode(Node));
        for (int x = (int)Grid.X(2); x < (int)Grid.X(6); x++)
        {
            Assert.Equal(Curvature * Math.Pow(x - 50, 2), rowU[x], 1e-4);
            Assert.Equal(Curvature * Math.Pow(pixelY - 40, 2), rowV[x], 1e-4);
        }
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

        new NodeResampling(coarse, Grid).Run(values, target);

        for (int node = 0; node < target.Length; node++)
        {
            double x = Math.Clamp(Grid.X(node % Grid.Columns), 31.5, 31.5 + 96), y = Math.Clamp(Grid.Y(node / Grid.Columns), 31.5, 31.5 + 64);
            Assert.Equal((0.1 * x) + (0.2 * y), target[node], 1e-4);
        }
    }
}
