using System.Globalization;
using BosFlow.Camera;
using BosFlow.Planning;
using BosFlow.Synthesis;
using BosFlow.TestKit;

namespace BosFlow.Tests.Planning;

/// <summary>The rigs of docs/planning-examples.md, worked by hand, against the planner: every number to three digits.</summary>
public sealed class PlanningExamplesTests
{
    // Half a unit of the third digit, and a quarter for what two ways of summing over frequencies differ by.
    private const double ThirdDigit = 0.75;

    public static TheoryData<string> Rigs => ["A bench", "On board"];

    [Theory]
    [MemberData(nameof(Rigs))]
    public void Judge_OfAWorkedRig_GivesEveryNumberToThreeDigits(string heading)
    {
        Dictionary<string, double> planned = Values(Planner.Judge(Request(heading)));
        (string Quantity, double Value)[] rows = Rows(heading);

        Assert.Equal(planned.Keys.Order(), rows.Select(row => row.Quantity).Order());
        Assert.All(rows, row =>
        {
            double unit = Math.Pow(10, Math.Floor(Math.Log10(row.Value)) - 2);
            Assert.True(Math.Abs(planned[row.Quantity] - row.Value) <= ThirdDigit * unit, $"{row.Quantity}: by hand {row.Value}, planned {planned[row.Quantity]:G6}");
        });
    }

    private static PlanRequest Request(string heading) => heading == "A bench"
        ? new PlanRequest
        {
            Rig = ReferenceRigs.Laboratory,
            Camera = new CameraFacts { PictureWidth = 1920, PictureHeight = 1200, VibrationRadians = 10e-6, VibrationHertz = 120, ExposureSeconds = 1e-3, ReadoutSeconds = 8e-3 },
            Board = new PlannedBoard { DotMetres = 0.4e-3 },
            Flow = new ExpectedFlow.Deflection(1e-4, 12e-3),
        }
        : new PlanRequest
        {
            Rig = ReferenceRigs.Onboard,
            Camera = new CameraFacts { PictureWidth = 1920, PictureHeight = 1080, VibrationRadians = 50e-6, VibrationHertz = 90, ExposureSeconds = 0.5e-3, ReadoutSeconds = 2e-3 },
            Board = new PlannedBoard { DotMetres = 1.3e-3 },
            Flow = new ExpectedFlow.Deflection(2.86e-4, 60e-3),
        };

    private static Dictionary<string, double> Values(PlanResult plan) => new()
    {
        ["Magnification of the board"] = plan.Magnification,
        ["Scale on the board"] = 1e3 * plan.Scale.BackgroundMetresPerPixel,
        ["Scale in the flow plane"] = 1e3 * plan.Scale.FlowMetresPerPixel,
        ["Width of the view on the board"] = 1e3 * plan.ViewAtBoard.Width,
        ["Height of the view on the board"] = 1e3 * plan.ViewAtBoard.Height,
        ["Width of the view at the flow"] = 1e3 * plan.ViewAtFlow.Width,
        ["Displacement for 1 mrad"] = 1e-3 * plan.PixelsPerRadian,
        ["Largest displacement"] = plan.Flow!.DisplacementPixels,
        ["Ray bundle at the flow"] = 1e3 * plan.FlowBlurMetres,
        ["Circle of confusion of the flow"] = 1e6 * plan.FlowConfusionMetres,
        ["Hyperfocal distance"] = 1e3 * BosFlow.Optics.DepthOfField.Hyperfocal(plan.Request.Rig.FocalLengthMetres!.Value, plan.Request.Rig.FNumber!.Value, plan.Request.Rig.PixelPitchMetres!.Value),
        ["Near limit of sharpness"] = 1e3 * plan.DepthOfField.Near,
        ["Far limit of sharpness"] = 1e3 * plan.DepthOfField.Far,
        ["Diffraction spot"] = 1e6 * plan.DiffractionSpotMetres,
        ["Dot's image"] = plan.DotImagePixels,
        ["Dots in a window"] = plan.DotsPerWindow,
        ["Half is left of wavelength"] = 1e3 * plan.HalfResponseWavelengthMetres,
        ["Nine tenths are left of wavelength"] = 1e3 * plan.NineTenthsResponseWavelengthMetres,
        ["Bound of the noise"] = plan.NoiseBoundPixels,
        ["Noise, one frame"] = plan.NoisePixels,
        ["Noise, mean"] = plan.MeanNoisePixels,
        ["Ratio to the noise before averaging over window and bundle"] = plan.Flow.SignalToNoise / plan.Flow.Response,
        ["Smallest gradient, one frame"] = plan.SmallestGradient,
        ["Smallest plume, one frame"] = plan.SmallestPlumeKelvin!.Value,
        ["Motion by vibration"] = plan.VibrationPixels!.Value,
        ["Smear by vibration"] = plan.VibrationSmearPixels!.Value,
        ["Vibration left by the exposure"] = plan.VibrationAttenuation!.Value,
        ["Skew between first and last row"] = plan.RowSkewPixels!.Value,
    };

    private static (string Quantity, double Value)[] Rows(string heading) =>
        [.. File.ReadLines(Repository.PathOf("docs", "planning-examples.md"))
            .SkipWhile(line => line != $"## {heading}").Skip(1).TakeWhile(line => !line.StartsWith("## ", StringComparison.Ordinal))
            .Where(line => line.StartsWith('|')).Skip(2)
            .Select(line => line.Split('|', StringSplitOptions.TrimEntries))
            .Select(cells => (cells[1], double.Parse(cells[4], CultureInfo.InvariantCulture)))];
}
