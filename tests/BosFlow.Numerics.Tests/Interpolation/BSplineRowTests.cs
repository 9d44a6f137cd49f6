using BosFlow.Numerics.Interpolation;

namespace BosFlow.Numerics.Tests.Interpolation;

public sealed class BSplineRowTests
{
    private const float Cubic = -0.2679492f;
    private const float Quintic = -0.4305753f;

    [Theory]
    [InlineData(2, Cubic)]
    [InlineData(15, Cubic)]
    [InlineData(16, Quintic)]
    [InlineData(33, Cubic)]
    [InlineData(160, Quintic)]
    [InlineData(163, Quintic)]
    public void Filter_AnyLength_IsTheRecursionPixelByPixel(int length, float pole)
    {
        if (!BSplineRow.IsSupported)
            return; // Rows are filtered together there.
        var random = new Random(3);
        float[] source = [.. Enumerable.Range(0, length).Select(_ => 255 * random.NextSingle())], row = new float[length];

        BSplineRow.Filter(source, row, pole, 3.5f, 41);

        double[] expected = new double[length];
        expected[0] = 41;
        for (int x = 1; x < length; x++)
            expected[x] = (3.5 * source[x]) + (pole * expected[x - 1]);
        expected[^1] = pole / ((pole * (double)pole) - 1) * (expected[^1] + (pole * expected[^2]));
        for (int x = length - 2; x >= 0; x--)
            expected[x] = pole * (expected[x + 1] - expected[x]);
        for (int x = 0; x < length; x++)
            Assert.Equal(expected[x], row[x], 5e-4); // single precision at values of some hundreds
    }
}
