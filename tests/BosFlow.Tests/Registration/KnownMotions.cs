using BosFlow.Registration;

namespace BosFlow.Tests.Registration;

/// <summary>Motions of each model with every parameter away from zero, about the middle of a 1280 x 720 picture.</summary>
internal static class KnownMotions
{
    public static PlanarMotion Of(MotionModel model) => model switch
    {
        MotionModel.Shift => PlanarMotion.Shift(7.3, -4.1),
        MotionModel.Rigid => Similarity(7.3, -4.1, 0.5, 1),
        MotionModel.Similarity => Similarity(7.3, -4.1, 0.5, 1.005),
        MotionModel.Homography => new PlanarMotion(1.004, -0.007, 6.2, 0.009, 0.996, -3.7, 3e-6, -2e-6),
        _ => PlanarMotion.Identity,
    };

    public static PlanarMotion Similarity(double u, double v, double degrees, double scale, double width = 1280, double height = 720)
    {
        double a = scale * Math.Cos(degrees * Math.PI / 180);
        double b = scale * Math.Sin(degrees * Math.PI / 180);
        double x = width / 2;
        double y = height / 2;
        return new PlanarMotion(a, -b, u + x - (a * x) + (b * y), b, a, v + y - (b * x) - (a * y), 0, 0);
    }
}
