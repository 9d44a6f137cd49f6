using BosFlow.Camera;
using OpenCvSharp;

namespace BosFlow.Media.Tests.OutsideReferences;

// OpenCV 4.13 (through OpenCvSharp) as an independent implementation of the same published lens models.
public sealed class LensAgainstOpenCvTests
{
    // Both are closed formulas in double precision.
    private const double SamePlace = 1e-9;

    // OpenCV's way back stops after a fixed number of fixed-point steps.
    private const double SameIdealPlace = 1e-6;

    [Fact]
    public void ToPicture_Pinhole_AgreesWithProjectPoints()
    {
        LensParameters lens = Pinhole();
        var model = new LensModel(lens);
        foreach ((double x, double y) in Rays(0.6))
        {
            using Mat point = Mat.FromPixelData(1, 1, MatType.CV_64FC3, new[] { x, y, 1.0 });
            using Mat zero = Mat.FromPixelData(3, 1, MatType.CV_64FC1, new[] { 0.0, 0, 0 });
            using Mat camera = Camera(lens);
            using Mat terms = Terms(lens);
            using var seen = new Mat();
            Cv2.ProjectPoints(point, zero, zero, camera, terms, seen);

            (double column, double row) = model.ToPicture(lens.CentreX + (model.IdealFocal * x), lens.CentreY + (model.IdealFocal * y));

            Assert.Equal(seen.At<Vec2d>(0).Item0, column, SamePlace);
            Assert.Equal(seen.At<Vec2d>(0).Item1, row, SamePlace);
        }
    }

    [Fact]
    public void ToIdeal_Pinhole_AgreesWithUndistortPoints()
    {
        LensParameters lens = Pinhole();
        var model = new LensModel(lens);
        foreach ((double x, double y) in Rays(0.5))
        {
            double column = lens.CentreX + (lens.FocalX * x);
            double row = lens.CentreY + (lens.FocalY * y);
            using Mat place = Mat.FromPixelData(1, 1, MatType.CV_64FC2, new[] { column, row });
            using Mat camera = Camera(lens);
            using Mat terms = Terms(lens);
            using var ideal = new Mat();
            Cv2.UndistortPointsIter(place, ideal, camera, terms, termCriteria: new TermCriteria(CriteriaTypes.Count | CriteriaTypes.Eps, 200, 1e-14));

            (double idealX, double idealY) = model.ToIdeal(column, row);

            Assert.Equal(lens.CentreX + (model.IdealFocal * ideal.At<Vec2d>(0).Item0), idealX, SameIdealPlace);
            Assert.Equal(lens.CentreY + (model.IdealFocal * ideal.At<Vec2d>(0).Item1), idealY, SameIdealPlace);
        }
    }

    [Fact]
    public void ToPicture_Fisheye_AgreesWithItsDistortPoints()
    {
        LensParameters lens = Pinhole() with { Kind = LensKind.Fisheye, Radial1 = -0.02, Radial2 = 0.006, Radial3 = -0.001, Radial4 = 0.0002, Tangential1 = 0, Tangential2 = 0 };
        var model = new LensModel(lens);
        foreach ((double x, double y) in Rays(2))
        {
            using Mat point = Mat.FromPixelData(1, 1, MatType.CV_64FC2, new[] { x, y });
            using Mat camera = Camera(lens);
            using Mat terms = Mat.FromPixelData(4, 1, MatType.CV_64FC1, new[] { lens.Radial1, lens.Radial2, lens.Radial3, lens.Radial4 });
            using var seen = new Mat();
            Cv2.FishEye.DistortPoints(point, seen, camera, terms);

            (double column, double row) = model.ToPicture(lens.CentreX + (model.IdealFocal * x), lens.CentreY + (model.IdealFocal * y));

            Assert.Equal(seen.At<Vec2d>(0).Item0, column, SamePlace);
            Assert.Equal(seen.At<Vec2d>(0).Item1, row, SamePlace);
        }
    }

    private static LensParameters Pinhole() => new()
    {
        Kind = LensKind.Pinhole,
        Width = 1280,
        Height = 720,
        FocalX = 1000,
        FocalY = 1004,
        CentreX = 645.3,
        CentreY = 352.8,
        Radial1 = -0.14,
        Radial2 = 0.05,
        Radial3 = -0.008,
        Tangential1 = 0.0007,
        Tangential2 = -0.0009,
    };

    private static IEnumerable<(double X, double Y)> Rays(double largest)
    {
        for (int i = -3; i <= 3; i++)
        {
            for (int j = -3; j <= 3; j++)
                yield return (largest * i / 3, 0.6 * largest * j / 3);
        }
    }

    private static Mat Camera(LensParameters lens) =>
        Mat.FromPixelData(3, 3, MatType.CV_64FC1, new[] { lens.FocalX, 0, lens.CentreX, 0, lens.FocalY, lens.CentreY, 0, 0, 1 });

    private static Mat Terms(LensParameters lens) =>
        Mat.FromPixelData(5, 1, MatType.CV_64FC1, new[] { lens.Radial1, lens.Radial2, lens.Tangential1, lens.Tangential2, lens.Radial3 });
}
