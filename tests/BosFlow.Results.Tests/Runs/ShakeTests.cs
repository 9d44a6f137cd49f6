using BosFlow.Registration;
using BosFlow.Results.Runs;

namespace BosFlow.Results.Tests.Runs;

public sealed class ShakeTests
{
    [Fact]
    public void Of_KnownSimilarity_GivesItsParameters()
    {
        // Counter-clockwise as seen on the picture by 0.5 deg, magnified by 1.005, about (100, 60), then shifted by (3, -2).
        double angle = 0.5 * Math.PI / 180;
        double c = 1.005 * Math.Cos(angle);
        double s = 1.005 * Math.Sin(angle);
        var motion = new PlanarMotion(c, s, 100 - (c * 100) - (s * 60) + 3, -s, c, 60 + (s * 100) - (c * 60) - 2, 0, 0);

        Shake shake = Shake.Of(motion, 201, 121);

        Assert.Equal(3, shake.U, 1e-9);
        Assert.Equal(-2, shake.V, 1e-9);
        Assert.Equal(0.5, shake.RotationDegrees, 1e-9);
        Assert.Equal(1.005, shake.Scale, 1e-9);
    }
}
