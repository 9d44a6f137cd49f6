using BosFlow.Camera;
using CsCheck;

namespace BosFlow.Tests.Camera;

public sealed class PlaneMapTests
{
    [Fact]
    public void ToPlane_OfWhatToPictureGives_IsThePoint() =>
        Gen.Select(Gen.Double[-0.4, 0.4], Gen.Double[-0.4, 0.4], Gen.Double[-0.05, 0.05], Gen.Double[0, 0.28], Gen.Double[0, 0.2])
            .Sample((tiltX, tiltY, radial, x, y) =>
            {
                PlaneMap map = PlaneCameras.At(tiltX, tiltY, radial: radial).ToMap();

                (double column, double row) = map.ToPicture(x, y);
                (double backX, double backY) = map.ToPlane(column, row);

                Assert.Equal(x, backX, 1e-11);
                Assert.Equal(y, backY, 1e-11);
            });

    [Fact]
    public void ScaleAt_BesideDifferenceQuotients_IsTheSlope()
    {
        PlaneMap map = PlaneCameras.At(0.3, -0.2, radial: 0.03).ToMap();
        const double step = 1e-7;

        (double columnX, double columnY, double rowX, double rowY) = map.ScaleAt(0.05, 0.15);

        (double rightX, double rightY) = map.ToPicture(0.05 + step, 0.15);
        (double leftX, double leftY) = map.ToPicture(0.05 - step, 0.15);
        (double lowX, double lowY) = map.ToPicture(0.05, 0.15 + step);
        (double highX, double highY) = map.ToPicture(0.05, 0.15 - step);
        Assert.Equal((rightX - leftX) / (2 * step), columnX, 0.01);
        Assert.Equal((rightY - leftY) / (2 * step), rowX, 0.01);
        Assert.Equal((lowX - highX) / (2 * step), columnY, 0.01);
        Assert.Equal((lowY - highY) / (2 * step), rowY, 0.01);
        Assert.Equal(Math.Abs((columnX * rowY) - (columnY * rowX)), map.AreaScaleAt(0.05, 0.15), 1e-6 * 7500 * 7500);
    }

    [Fact]
    public void ToPicture_ThinLensStraightOn_ScalesByFocalLengthOverDistance()
    {
        // The pinhole's similar triangles, of any textbook: 3000 px at 0.4 m are 7500 px/m.
        PlaneMap map = (PlaneCameras.At(0, 0) with { Rotation = (0, 0, 0) }).ToMap();

        (double x0, double y0) = map.ToPicture(0.10, 0.05);
        (double x1, double y1) = map.ToPicture(0.20, 0.05);

        Assert.Equal(750, x1 - x0, 1e-9);
        Assert.Equal(0, y1 - y0, 1e-9);
    }
}
