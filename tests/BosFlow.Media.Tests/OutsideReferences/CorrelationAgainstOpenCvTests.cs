using BosFlow.Numerics.Spectral;
using OpenCvSharp;

namespace BosFlow.Media.Tests.OutsideReferences;

// OpenCV 4.13 (through OpenCvSharp) as an independent reference of the project's own transforms and correlation. The tests
// live here because this is the only test project that may know OpenCV.
public sealed class CorrelationAgainstOpenCvTests
{
    [Theory]
    [InlineData(16)]
    [InlineData(32)]
    public void Correlate_TwoTextures_HasThePeakOfNormalisedTemplateMatching(int size)
    {
        float[] a = Noise(size * size, 1), b = Noise(size * size, 2);
        for (int i = 0; i < b.Length; i++)
            b[i] = (0.6f * a[(((i / size) - 3 + size) % size * size) + (((i % size) + 5) % size)]) + (0.4f * b[i]);

        CorrelationPeak peak = new WindowCorrelator(size).Correlate(a, b);

        // Template a slid over b repeated periodically: every placement sees the same pixels, as circular correlation does.
        using Mat template = Mat.FromPixelData(size, size, MatType.CV_32FC1, a);
        using Mat once = Mat.FromPixelData(size, size, MatType.CV_32FC1, b);
        using var periodic = new Mat();
        Cv2.Repeat(once, 2, 2, periodic);
        using var plane = new Mat();
        Cv2.MatchTemplate(periodic, template, plane, TemplateMatchModes.CCoeffNormed);
        using Mat period = plane[new Rect(0, 0, size, size)];
        Cv2.MinMaxLoc(period, out _, out double best, out _, out Point at);

        Assert.Equal(best, peak.Value, 1e-5);
        Assert.Equal(Signed(at.X, size), peak.Dx, 0.5);
        Assert.Equal(Signed(at.Y, size), peak.Dy, 0.5);
    }

    [Theory]
    [InlineData(8)]
    [InlineData(64)]
    [InlineData(512)]
    public void Transform_OneSignal_AgreesWithOpenCvsDft(int length)
    {
        float[] re = Noise(length, 3), im = Noise(length, 4);
        float[] interleaved = new float[2 * length];
        for (int i = 0; i < length; i++)
            (interleaved[2 * i], interleaved[(2 * i) + 1]) = (re[i], im[i]);
        using Mat input = Mat.FromPixelData(1, length, MatType.CV_32FC2, interleaved);
        using var expected = new Mat();
        Cv2.Dft(input, expected);

        new AxisFft(length).Transform(re, im, new float[2 * length], 1);

        // Grey levels to 200, so sums reach 200 sqrt(n); single precision on both sides.
        double tolerance = 2e-4 * Math.Sqrt(length);
        for (int k = 0; k < length; k++)
        {
            Vec2f value = expected.At<Vec2f>(0, k);
            Assert.Equal(value.Item0, re[k], tolerance * (1 + Math.Log2(length)));
            Assert.Equal(value.Item1, im[k], tolerance * (1 + Math.Log2(length)));
        }
    }

    private static int Signed(int index, int size) => index < size / 2 ? index : index - size;

    private static float[] Noise(int count, int seed)
    {
        var random = new Random(seed);
        return [.. Enumerable.Range(0, count).Select(_ => (float)(random.NextDouble() * 200))];
    }
}
