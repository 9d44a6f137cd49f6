using BosFlow.Registration;

namespace BosFlow.Tests.Registration;

public sealed class InverseMotionTests
{
    [Fact]
    public void Of_AnyMotion_LeadsBackToThePoint()
    {
        PlanarMotion motion = KnownMotions.Similarity(7.3, -4.1, 2, 1.01, 640, 480);

        (double u, double v) = motion.DisplacementAt(100, 400);
        (double x, double y) = InverseMotion.Of(motion, 100 + u, 400 + v);

        Assert.Equal(100, x, 1e-4);
        Assert.Equal(400, y, 1e-4);
    }
}
