using BosFlow.Displacement;
using BosFlow.TestKit;

namespace BosFlow.Tests.Displacement;

public sealed class WindowSumsTests
{
    [Theory]
    [InlineData(70, 50, 16, 8, WindowWeighting.TopHat)]
    [InlineData(71, 50, 16, 5, WindowWeighting.Gaussian)]
    [InlineData(65, 41, 10, 13, WindowWeighting.TopHat)]
    [InlineData(33, 32, 32, 16, WindowWeighting.Gaussian)]
    public void Add_AllRows_EqualsTheDoubleLoop(int width, int height, int size, int spacing, WindowWeighting weighting)
    {
        WindowLayout layout = WindowLayout.Fill(width, height, size, spacing);
        float[] weights = layout.Weights(weighting);
        float[][] pictures = [Noise(width * height, 1), Noise(width * height, 2)];
        var sums = new WindowSums(layout, weights, width, 2);
        int completed = 0;

        for (int y = 0; y < height; y++)
        {
            int row = sums.Add(y, [pictures[0][(y * width)..((y + 1) * width)], pictures[1][(y * width)..((y + 1) * width)]]);
            if (row < 0)
                continue;
            Assert.Equal(completed++, row);
            for (int column = 0; column < layout.Grid.Columns; column++)
            {
                for (int term = 0; term < 2; term++)
                    AssertSum(layout, weights, pictures[term], width, column, row, sums.Totals[(column * 2) + term]);
            }
        }

        Assert.Equal(layout.Grid.Rows, completed);
    }

    [Fact]
    public void Fill_Windows_LieWithinThePictureWithTheRestShared()
    {
        WindowLayout layout = WindowLayout.Fill(101, 64, 32, 16);

        Assert.Equal(5, layout.Grid.Columns);
        Assert.Equal(3, layout.Grid.Rows);
        Assert.Equal(2, layout.Left(0));
        Assert.Equal(2 + 15.5, layout.Grid.OriginX);
        Assert.True(layout.Left(4) + 32 <= 101);
    }

    private static void AssertSum(WindowLayout layout, float[] weights, float[] picture, int width, int column, int row, double actual)
    {
        double sum = 0, scale = 0;
        for (int y = 0; y < layout.Size; y++)
        {
            for (int x = 0; x < layout.Size; x++)
            {
                double product = (double)weights[y] * weights[x] * picture[((layout.Top(row) + y) * width) + layout.Left(column) + x];
                sum += product;
                scale += Math.Abs(product);
            }
        }

        Assert.InRange(KernelError.Scaled(actual, sum, scale), 0, Tolerances.SingleKernel);
    }

    private static float[] Noise(int count, int seed)
    {
        var random = new Random(seed);
        return [.. Enumerable.Range(0, count).Select(_ => (float)((random.NextDouble() * 2) - 1))];
    }
}
