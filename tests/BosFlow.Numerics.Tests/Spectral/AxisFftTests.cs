using System.Numerics;
using BosFlow.Numerics.Spectral;
using MathNet.Numerics.IntegralTransforms;

namespace BosFlow.Numerics.Tests.Spectral;

public sealed class AxisFftTests
{
    public static TheoryData<int, int> Shapes => new()
    {
        { 2, 1 }, { 4, 1 }, { 8, 3 }, { 16, 8 }, { 32, 7 }, { 64, 1 }, { 128, 9 }, { 256, 2 }, { 512, 16 }, { 4096, 1 },
    };

    [Theory]
    [MemberData(nameof(Shapes))]
    public void Transform_AgainstMathNet_Agrees(int length, int inner)
    {
        (float[] re, float[] im) = Noise(length * inner, seed: length + inner);
        float[] outRe = (float[])re.Clone(), outIm = (float[])im.Clone();

        new AxisFft(length).Transform(outRe, outIm, new float[2 * re.Length], inner);

        for (int lane = 0; lane < inner; lane++)
        {
            var expected = new Complex[length];
            for (int j = 0; j < length; j++)
                expected[j] = new Complex(re[(j * inner) + lane], im[(j * inner) + lane]);
            Fourier.Forward(expected, FourierOptions.NoScaling);
            for (int k = 0; k < length; k++)
            {
                // Rounding grows with log2 n; inputs are of order 1, sums of order sqrt(n).
                double tolerance = 1e-6 * Math.Sqrt(length) * Math.Log2(2 * length);
                Assert.Equal(expected[k].Real, outRe[(k * inner) + lane], tolerance);
                Assert.Equal(expected[k].Imaginary, outIm[(k * inner) + lane], tolerance);
            }
        }
    }

    [Theory]
    [MemberData(nameof(Shapes))]
    public void Transform_ManyLanes_EachLaneIsBitIdenticalToALaneAlone(int length, int inner)
    {
        (float[] re, float[] im) = Noise(length * inner, seed: 5);
        float[] allRe = (float[])re.Clone(), allIm = (float[])im.Clone();
        var fft = new AxisFft(length);
        fft.Transform(allRe, allIm, new float[2 * re.Length], inner);

        float[] aloneRe = new float[length], aloneIm = new float[length];
        for (int j = 0; j < length; j++)
            (aloneRe[j], aloneIm[j]) = (re[(j * inner) + inner - 1], im[(j * inner) + inner - 1]);
        fft.Transform(aloneRe, aloneIm, new float[2 * length], 1);

        for (int k = 0; k < length; k++)
            Assert.Equal((aloneRe[k], aloneIm[k]), (allRe[(k * inner) + inner - 1], allIm[(k * inner) + inner - 1]));
    }

    [Fact]
    public void Transform_TwiceWithPartsSwapped_GivesTheSignalTimesItsLength()
    {
        (float[] re, float[] im) = Noise(64, seed: 3);
        float[] outRe = (float[])re.Clone(), outIm = (float[])im.Clone();
        var fft = new AxisFft(64);

        fft.Transform(outRe, outIm, new float[128], 1);
        fft.Transform(outIm, outRe, new float[128], 1);

        for (int j = 0; j < 64; j++)
            Assert.Equal(64 * re[j], outRe[j], 1e-4);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(12)]
    [InlineData(8192)]
    public void Constructor_LengthNotAPowerOfTwo_Throws(int length) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new AxisFft(length));

    private static (float[] Re, float[] Im) Noise(int count, int seed)
    {
        var random = new Random(seed);
        float[] re = new float[count], im = new float[count];
        for (int i = 0; i < count; i++)
        {
            re[i] = (float)((2 * random.NextDouble()) - 1);
            im[i] = (float)((2 * random.NextDouble()) - 1);
        }

        return (re, im);
    }
}
