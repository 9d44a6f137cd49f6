using BosFlow.Registration;
using BosFlow.Synthesis;

namespace BosFlow.Tests.Synthesis;

public sealed class CameraShakeTests
{
    [Fact]
    public void At_TimeZero_IsAtRest()
    {
        PlanarMotion motion = Shake(1).At(0);
        (double u, double v) = motion.DisplacementAt(17, 250);
        Assert.Equal(0, u, 1e-9);
        Assert.Equal(0, v, 1e-9);
    }

    [Fact]
    public void At_AnyTime_StaysWithinItsAmplitudesAndIsSmooth()
    {
        CameraShake shake = Shake(3);
        (double x, double y) = shake.At(0).DisplacementAt(319.5, 239.5);
        double largest = 0;
        for (double t = 0; t < 4; t += 0.001)
        {
            (double u, double v) = shake.At(t).DisplacementAt(319.5, 239.5);
            largest = Math.Max(largest, Math.Max(Math.Abs(u), Math.Abs(v)));
            // 15 Hz at 3 px: at most 2 pi 15 3 = 283 px/s.
            Assert.True(Math.Abs(u - x) < 0.3 && Math.Abs(v - y) < 0.3);
            (x, y) = (u, v);
        }

        Assert.InRange(largest, 0.5, 3);
    }

    [Fact]
    public void At_SameSeed_Repeats()
    {
        Assert.Equal(Shake(3).At(0.37), Shake(3).At(0.37));
        Assert.NotEqual(Shake(3).At(0.37), Shake(4).At(0.37));
    }

    [Fact]
    public void Similarity_QuarterTurn_IsCounterClockwiseAsSeen()
    {
        // The point right of the centre goes up, which is towards smaller y; twice as far for scale 2; then the shift.
        (double u, double v) = CameraShake.Similarity(100, 100, 5, 7, 90, 2).DisplacementAt(110, 100);
        Assert.Equal(100 + 5, 110 + u, 1e-9);
        Assert.Equal(100 - 20 + 7, 100 + v, 1e-9);
    }

    private static CameraShake Shake(ulong seed) =>
        new(new ShakeSettings { ShiftPixels = 3, RotationDegrees = 0.05, ScalePercent = 0.02 }, 640, 480, seed);
}
