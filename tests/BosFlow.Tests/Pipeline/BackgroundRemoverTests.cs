using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Pipeline;
using BosFlow.Registration;
using BosFlow.Tests.Registration;

namespace BosFlow.Tests.Pipeline;

public sealed class BackgroundRemoverTests
{
    private const int Window = 32;
    private static readonly NodeGrid Grid = new(15.5, 15.5, 16, 20, 14);
    private static readonly PixelMask Everywhere = PixelMask.All(336, 240);

    [Fact]
    public void Remove_OverlappingWindows_SigmaOfTheMotionMatchesItsSpread()
    {
        var remover = new BackgroundRemover(Grid, Window, Everywhere, MotionModel.Similarity);
        var random = new Random(21);
        const int Trials = 200;
        const int Corner = 0;
        double spread = 0;
        double variance = 0;
        for (int trial = 0; trial < Trials; trial++)
        {
            BackgroundRemoval removal = remover.Remove(Overlapping(random), PlanarMotion.Identity);
            (double u, _) = removal.Motion.DisplacementAt(Grid.X(Corner), Grid.Y(Corner));
            spread += u * u;
            variance += Math.Pow(removal.Field.SigmaU[Corner], 2);
        }

        // 200 squares scatter by 3 sqrt(2 / 200) = 30 %; windows that jut out of the picture correlate a little less.
        Assert.InRange(spread / variance, 0.65, 1.3);
    }

    [Fact]
    public void Remove_ReplacedAndMissingVectors_AreShiftedOrStayMissing()
    {
        VectorField total = Overlapping(new Random(1));
        for (int i = 0; i < Grid.Count; i++)
            (total.U[i], total.V[i]) = (5, -3);
        (total.Flags[30], total.Flags[31], total.U[31]) = (VectorFlags.OutlierReplaced, VectorFlags.Masked, float.NaN);

        BackgroundRemoval removal = new BackgroundRemover(Grid, Window, Everywhere, MotionModel.Shift).Remove(total, PlanarMotion.Identity);

        Assert.Equal(0, removal.Field.U[30], 1e-6f);
        Assert.Equal(VectorFlags.OutlierReplaced, removal.Field.Flags[30]);
        Assert.True(float.IsNaN(removal.Field.U[31]));
        Assert.Equal(-3, removal.Motion.H23, 1e-6);
    }

    [Fact]
    public void Find_RandomMask_MatchesTheLoopOverEveryPixel()
    {
        var random = new Random(4);
        byte[] mask = new byte[336 * 240];
        Array.Fill(mask, (byte)1);
        for (int i = 0; i < 25; i++)
            mask[random.Next(mask.Length)] = 0;
        var pixels = new PixelMask(336, 240, mask);
        var expected = new List<int>();
        for (int node = 0; node < Grid.Count; node++)
        {
            int left = (node % Grid.Columns) * 16;
            int top = (node / Grid.Columns) * 16;
            bool all = true;
            for (int y = top; y < top + Window; y++)
            {
                for (int x = left; x < left + Window; x++)
                    all &= pixels[x, y];
            }

            if (all)
                expected.Add(node);
        }

        int[] nodes = UndisturbedNodes.Find(Grid, Window, pixels);

        Assert.InRange(expected.Count, 100, 270);
        Assert.Equal(expected, nodes);
    }

    // Each vector is the mean of the 2 x 2 blocks of its window, blocks being shared with its neighbours: 75 % overlap in area.
    private static VectorField Overlapping(Random random)
    {
        double[] u = Blocks(random);
        double[] v = Blocks(random);
        float[] sigma = new float[Grid.Count];
        return new VectorField
        {
            Grid = Grid,
            U = Means(u),
            V = Means(v),
            SigmaU = sigma,
            SigmaV = sigma,
            Flags = new VectorFlags[Grid.Count],
            Correlation = new float[Grid.Count],
            PeakRatio = new float[Grid.Count],
        };
    }

    private static double[] Blocks(Random random) => [.. Enumerable.Range(0, 21 * 15).Select(_ => 0.02 * VectorCloud.Gaussian(random))];

    private static float[] Means(double[] blocks)
    {
        float[] means = new float[Grid.Count];
        for (int node = 0; node < means.Length; node++)
        {
            int first = ((node / Grid.Columns) * 21) + (node % Grid.Columns);
            means[node] = (float)((blocks[first] + blocks[first + 1] + blocks[first + 21] + blocks[first + 22]) / 4);
        }

        return means;
    }
}
