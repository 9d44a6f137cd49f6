using BosFlow.Camera;
using BosFlow.Cli.CaseFile;
using BosFlow.Cli.CaseFile.Keys;
using BosFlow.Cli.CaseFile.Sections;
using BosFlow.Planning;

namespace BosFlow.Cli.Tests.CaseFile;

public sealed class PlanMappingTests
{
    private const string Rig = "[rig]\nlens_to_flow_mm = 1200\nflow_to_background_mm = 800\nfocal_length_mm = 16\npixel_pitch_um = 1.55\nf_number = 2.8\n[camera]\npicture_width_px = 4056\npicture_height_px = 3040\n";

    public static TheoryData<string, ExpectedFlow> Flows => new()
    {
        { "kind = \"jet\"\nnozzle_diameter_mm = 60\ntemperature_c = 550\ndownstream_mm = 300\nspeed_m_per_s = 300\npressure_pa = 90000\n", new ExpectedFlow.Jet(0.06, 823.15, 0.3, 300, 90000) },
        { "kind = \"plume\"\nhalf_width_mm = 8\ntemperature_c = 600\n", new ExpectedFlow.Plume(0.008, 873.15, null) },
        { "kind = \"plate\"\ntemperature_c = 80\nabove_edge_mm = 100\npath_length_mm = 150\n", new ExpectedFlow.HeatedPlate(353.15, 0.1, 0.15) },
        { "kind = \"shock\"\nmach = 2\nwedge_deg = 10\npath_length_mm = 150\nthickness_mm = 2\n", new ExpectedFlow.Shock(2, 10, 0.15, 0.002) },
        { "kind = \"lens\"\ntest_lens_focal_length_m = 10\ntest_lens_diameter_mm = 50\n", new ExpectedFlow.WeakLens(10, 0.05) },
        { "kind = \"gas-cell\"\ncell_gas = \"helium\"\npath_length_mm = 150\nlayer_mm = 10\n", new ExpectedFlow.GasCell("helium", 0.15, 0.01) },
        { "kind = \"deflection\"\ndeflection_mrad = 0.5\nsize_mm = 20\n", new ExpectedFlow.Deflection(0.0005, 0.02) },
    };

    [Theory]
    [MemberData(nameof(Flows))]
    public void Parse_ExpectedFlow_IsInSiUnits(string keys, ExpectedFlow expected)
    {
        Assert.Equal(expected, PlanCaseReader.Parse(Rig + "[expected]\n" + keys, CaseText.Path, []).Request.Flow);
    }

    [Fact]
    public void Parse_CameraAndLimits_AreInSiUnits()
    {
        PlanCase plan = PlanCaseReader.Parse(
            Rig + "exposure_ms = 0.5\nreadout_ms = 16\nnoise_percent = 2\nfocus_mm = 1900\nvibration_mrad = 0.05\nvibration_hz = 120\n[limits]\nlongest_board_distance_mm = 2600\nfocal_lengths_mm = [8, 16]\nf_numbers = [2.8, 4]\n",
            CaseText.Path,
            []);

        Assert.Equal(
            new CameraFacts
            {
                PictureWidth = 4056,
                PictureHeight = 3040,
                ExposureSeconds = 0.0005,
                ReadoutSeconds = 0.016,
                NoiseOfFullScale = 0.02,
                FocusMetres = 1.9,
                VibrationRadians = 0.05 / 1e3,
                VibrationHertz = 120,
            },
            plan.Request.Camera);
        Assert.Equal(1.55e-6, plan.Request.Rig.PixelPitchMetres!.Value, 15);
        Assert.Equal(2.6, plan.Limits.LongestBoardDistanceMetres);
        Assert.Equal([0.008, 0.016], plan.Limits.FocalLengthsMetres);
        Assert.Equal([2.8, 4.0], plan.Limits.FNumbers);
        Assert.Null(plan.Limits.LeastViewWidthMetres);
    }

    [Fact]
    public void Parse_DefaultsWrittenOut_GiveTheSameAsLeftOut()
    {
        string camera = Rig + Defaults(CameraKeys.Section);
        string rest = string.Concat(new[] { BoardKeys.Section, ExpectedKeys.Section, LimitsKeys.Section }.Select(section => $"[{section.Name}]\n" + Defaults(section)));

        PlanRequest written = PlanCaseReader.Parse(camera + rest, CaseText.Path, []).Request;
        PlanRequest leftOut = PlanCaseReader.Parse(Rig, CaseText.Path, []).Request;

        Assert.Equal(leftOut with { Gas = written.Gas }, written);
    }

    [Fact]
    public void Parse_OptionAndFile_TheOptionWins()
    {
        PlanCase plan = PlanCaseReader.Parse(Rig, CaseText.Path, [(RigKeys.FocalLength, "25"), (LimitsKeys.FNumbers, "4,5.6")]);

        Assert.Equal(0.025, plan.Request.Rig.FocalLengthMetres);
        Assert.Equal([4.0, 5.6], plan.Limits.FNumbers);
    }

    [Fact]
    public void Parse_OptionSaysTheSameInOtherWords_TheFileGivesWay()
    {
        const string Measured = "[rig]\nlens_to_flow_mm = 1200\nflow_to_background_mm = 800\nbackground_mm_per_px = 0.31\nbackground_scale_sigma_percent = 1\n[camera]\npicture_width_px = 4056\npicture_height_px = 3040\n";

        PlanCase plan = PlanCaseReader.Parse(Measured, CaseText.Path, [(RigKeys.FocalLength, "16"), (RigKeys.PixelPitch, "1.55"), (RigKeys.FNumber, "4")]);

        Assert.Null(plan.Request.Rig.BackgroundMetresPerPixel);
        Assert.Equal(0.016, plan.Request.Rig.FocalLengthMetres);
    }

    [Fact]
    public void Parse_AnotherKindOfFlowByOption_IgnoresTheDescriptionInTheFile()
    {
        const string Jet = "[expected]\nkind = \"jet\"\nnozzle_diameter_mm = 60\ntemperature_c = 550\ndownstream_mm = 300\n";

        PlanCase plan = PlanCaseReader.Parse(Rig + Jet, CaseText.Path, [(ExpectedKeys.Kind, "plume"), (ExpectedKeys.HalfWidth, "8")]);

        Assert.Equal(new ExpectedFlow.Plume(0.008, 823.15, null), plan.Request.Flow);
    }

    [Fact]
    public void Parse_FootageThatDoesNotExistYet_IsNotAskedFor()
    {
        PlanCase plan = PlanCaseReader.Parse("[footage]\nframes = \"not/yet/*.png\"\n" + Rig, CaseText.Path, []);

        Assert.Null(plan.Request.Flow);
        Assert.Equal(1.2, plan.Request.Rig.LensToFlowMetres);
    }

    [Fact]
    public void Names_OfAllOptions_AreDifferent()
    {
        CaseKey[] keys = [.. CaseSections.All.Where(section => section.Name is "rig" or "camera" or "board" or "expected" or "limits" or "gas" or "displacement").SelectMany(section => section.Keys)];

        Assert.Equal(keys.Length, keys.Select(CaseOption.NameOf).Distinct().Count());
    }

    private static string Defaults(CaseSection section) =>
        string.Concat(section.Keys.Where(key => key.Default is not null).Select(key => $"{key.Name} = {key.Default}\n"));
}
