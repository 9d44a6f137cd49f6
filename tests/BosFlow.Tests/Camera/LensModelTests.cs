using BosFlow.Camera;

namespace BosFlow.Tests.Camera;

public sealed class LensModelTests
{
    // Newton's iteration stops below 1e-10 px.
    private const double InversePixels = 1e-9;

    public static TheoryData<string> Lenses => ["barrel", "pincushion", "moustache", "fisheye"];

    [Theory]
    [MemberData(nameof(Lenses))]
    public void ToIdeal_OfToPicture_ReturnsThePoint(string name)
    {
        LensModel lens = Lens(name);

        for (double y = 0; y <= 719; y += 71.9)
        {
            for (double x = 0; x <= 1279; x += 127.9)
            {
                (double column, double row) = lens.ToPicture(x, y);
                (double backX, double backY) = lens.ToIdeal(column, row);

                Assert.Equal(x, backX, InversePixels);
                Assert.Equal(y, backY, InversePixels);
            }
        }
    }

    [Theory]
    [MemberData(nameof(Lenses))]
    public void SlopesAt_AnyPlace_AreTheDifferencesOfToPicture(string name)
    {
        LensModel lens = Lens(name);
        const double Step = 1e-4;

        foreach ((double x, double y) in new[] { (3.0, 5.0), (640.2, 361.7), (641.5, 358.0), (1200.0, 100.0) })
        {
            LensSlopes slopes = lens.SlopesAt(x, y);
            (double left, double leftRow) = lens.ToPicture(x - Step, y);
            (double right, double rightRow) = lens.ToPicture(x + Step, y);
            (double topColumn, double top) = lens.ToPicture(x, y - Step);
            (double bottomColumn, double bottom) = lens.ToPicture(x, y + Step);

            Assert.Equal((right - left) / (2 * Step), slopes.XX, 1e-7);
            Assert.Equal((rightRow - leftRow) / (2 * Step), slopes.YX, 1e-7);
            Assert.Equal((bottomColumn - topColumn) / (2 * Step), slopes.XY, 1e-7);
            Assert.Equal((bottom - top) / (2 * Step), slopes.YY, 1e-7);
        }
    }

    [Theory]
    [MemberData(nameof(Lenses))]
    public void SlopesAt_TheCentre_KeepTheArea(string name)
    {
        LensModel lens = Lens(name);

        Assert.Equal(1, lens.SlopesAt(lens.Parameters.CentreX, lens.Parameters.CentreY).Determinant, 1e-12);
    }

    [Fact]
    public void ToPicture_BeyondTheTurningPoint_IsNaN()
    {
        // r (1 - r^2 / 3) turns back at r = 1, f px from the centre.
        var lens = new LensModel(LensParameters.Undistorted(1280, 720, 500) with { Radial1 = -1 / 3.0 });

        Assert.True(double.IsFinite(lens.ToPicture(639.5 + 499.9, 359.5).X));
        Assert.True(double.IsNaN(lens.ToPicture(639.5 + 500.1, 359.5).X));
    }

    [Fact]
    public void ToIdeal_WhereNothingIsSeen_IsNaN()
    {
        // The largest r (1 - r^2 / 3) is 2/3.
        var lens = new LensModel(LensParameters.Undistorted(1280, 720, 500) with { Radial1 = -1 / 3.0 });

        Assert.True(double.IsFinite(lens.ToIdeal(639.5 + 333, 359.5).X));
        Assert.True(double.IsNaN(lens.ToIdeal(639.5 + 334, 359.5).X));
    }

    [Fact]
    public void ToIdeal_FisheyeBeyondARightAngle_IsNaN()
    {
        var lens = new LensModel(LensParameters.Undistorted(1280, 720, 300) with { Kind = LensKind.Fisheye });

        Assert.True(double.IsFinite(lens.ToIdeal(639.5 + (300 * 1.5), 359.5).X));
        Assert.True(double.IsNaN(lens.ToIdeal(639.5 + (300 * 1.6), 359.5).X));
    }

    [Fact]
    public void ToIdeal_Displacement_IsTheDifferenceOfItsEnds()
    {
        LensModel lens = Lens("barrel");

        (double x, double y, double u, double v) = lens.ToIdeal(100, 50, 3, -2);

        Assert.Equal(lens.ToIdeal(100, 50), (x, y));
        Assert.Equal(lens.ToIdeal(103, 48).X, x + u, InversePixels);
        Assert.Equal(lens.ToIdeal(103, 48).Y, y + v, InversePixels);
    }

    [Fact]
    public void Constructor_FocalLengthOfZero_Throws() =>
        Assert.Throws<ArgumentException>(() => new LensModel(LensParameters.Undistorted(10, 10, 0)));

    private static LensModel Lens(string name)
    {
        LensParameters plain = LensParameters.Undistorted(1280, 720, 1000) with { CentreX = 641.5, CentreY = 358 };
        return new LensModel(name switch
        {
            "barrel" => plain with { FocalY = 1003, Radial1 = -0.12, Radial2 = 0.03, Radial3 = -0.004, Tangential1 = 0.0008, Tangential2 = -0.0011 },
            "pincushion" => plain with { Radial1 = 0.15 },
            "moustache" => plain with { Radial1 = 0.2, Radial2 = -0.25 },
            _ => plain with { Kind = LensKind.Fisheye, FocalX = 620, FocalY = 621, Radial1 = -0.02, Radial2 = 0.006, Radial3 = -0.001, Radial4 = 0.0002 },
        });
    }
}
