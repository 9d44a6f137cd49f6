using BosFlow.Cli.CaseFile;
using BosFlow.Density;
using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Optics;
using BosFlow.Pipeline;
using BosFlow.Registration;

namespace BosFlow.Cli.Tests.CaseFile;

public sealed class CaseMappingTests
{
    private const string Full =
        """
        [footage]
        video = "Flug über Öl/clip 1.mp4"
        use_seconds = [1.5, 12]
        decoder = "ffmpeg"
        [reference]
        images = ["a.png", "b.png"]
        combine = "median"
        [region]
        interest_px = [10, 20, 300, 200]
        exclude = [[[0,0],[200,0],[200,90.5]]]
        flow = [[[1,2],[3,4],[5,6]], [[7,8],[9,10],[11,12],[13,14]]]
        [registration]
        motion = "homography"
        largest_shift_px = 12
        readout_ms = 0
        [displacement]
        quality = "fast"
        window_px = 24
        sub_pixel = "least-squares"
        [rig]
        lens_to_flow_mm = 1200
        flow_to_background_mm = 800.5
        focal_length_mm = 16.0
        pixel_pitch_um = 1.55
        f_number = 2.8
        [gas]
        wavelength_nm = 532
        ambient_pressure_pa = 99800
        ambient_temperature_c = 22.5
        [flow]
        shape = "planar"
        path_length_mm = 120
        [output]
        folder = "../results ä"
        knife_edge_deg = 45
        """;

    [Fact]
    public void Parse_EveryKey_GivesTheCaseInSiUnits()
    {
        LoadedCase loaded = CaseText.Parse(Full);

        ExperimentCase experiment = loaded.Experiment;
        Assert.Equal("Flug über Öl/clip 1.mp4", experiment.Footage.Video);
        Assert.Equal((1.5, 12.0), experiment.Footage.UseSeconds);
        Assert.Equal(VideoDecoder.Ffmpeg, experiment.Footage.Decoder);
        Assert.Equal(["a.png", "b.png"], experiment.Reference.Images);
        Assert.Equal(ReferenceCombination.Median, experiment.Reference.Combine);
        Assert.Equal(new PixelRectangle(10, 20, 300, 200), experiment.Region.Interest);
        Assert.Equal((200, 90.5), experiment.Region.Exclude[0].Corners[2]);
        Assert.Equal(4, experiment.Region.Flow[1].Corners.Count);
        Assert.Equal(MotionModel.Homography, experiment.Registration.Motion);
        Assert.Equal(12, experiment.Registration.LargestShiftPixels);
        Assert.Equal(QualityPresets.Fast with { WindowPixels = 24, SubPixel = SubPixelMethod.LeastSquares }, experiment.Displacement);
        Assert.Equal(1.2, experiment.Rig!.LensToFlowMetres);
        Assert.Equal(0.8005, experiment.Rig.FlowToBackgroundMetres);
        Assert.Equal(0.016, experiment.Rig.FocalLengthMetres);
        Assert.Equal(1.55e-6, experiment.Rig.PixelPitchMetres);
        Assert.Null(experiment.Rig.BackgroundMetresPerPixel);
        Assert.Equal(2.8, experiment.Rig.FNumber);
        Assert.Equal(0.12, experiment.Rig.PathLengthMetres);
        Assert.Equal(532e-9, experiment.Gas.WavelengthMetres);
        Assert.Equal(99800, experiment.Gas.AmbientPressurePascal);
        Assert.Equal(295.65, experiment.Gas.AmbientTemperatureKelvin, 10);
        Assert.Equal(45, experiment.KnifeEdgeDegrees);
        Assert.Equal("/tmp/results ä", loaded.OutputFolder);
        Assert.Equal("/tmp/nowhere", loaded.Folder);
    }

    [Fact]
    public void Parse_ReadoutToBeEstimated_SaysSo()
    {
        RegistrationSettings registration = CaseText.Parse(CaseText.Smallest + "[registration]\nreadout_ms = \"estimate\"\n").Experiment.Registration;

        Assert.True(registration.EstimatesReadout);
        Assert.Equal(0, registration.ReadoutSeconds);
        Assert.False(CaseText.Parse(CaseText.Smallest + "[registration]\nreadout_ms = 9\n").Experiment.Registration.EstimatesReadout);
    }

    [Theory]
    [InlineData("quality = \"finest\"\n", WindowSizing.Adaptive)]
    [InlineData("quality = \"finest\"\nweighting = \"gaussian\"\n", WindowSizing.Fixed)]
    [InlineData("quality = \"finest\"\nwindows = \"fixed\"\n", WindowSizing.Fixed)]
    [InlineData("quality = \"fast\"\nwindows = \"adaptive\"\n", WindowSizing.Adaptive)]
    [InlineData("quality = \"finest\"\nshape = \"quadratic\"\n", WindowSizing.Fixed)]
    [InlineData("quality = \"finest\"\nshape = \"affine\"\n", WindowSizing.Adaptive)]
    [InlineData("", WindowSizing.Fixed)]
    public void Parse_Windows_AreAdaptiveWhereAskedForOrWhereFinestMayHaveThem(string keys, WindowSizing expected) =>
        Assert.Equal(expected, CaseText.Parse(CaseText.Smallest + "[displacement]\n" + keys).Experiment.Displacement.Windows);

    [Theory]
    [InlineData("", WindowShape.Constant, 32)]
    [InlineData("quality = \"finest\"\nshape = \"quadratic\"\n", WindowShape.Quadratic, 48)]
    [InlineData("shape = \"quadratic\"\nwindow_px = 64\n", WindowShape.Quadratic, 64)]
    [InlineData("shape = \"affine\"\n", WindowShape.Affine, 32)]
    public void Parse_Shape_BringsItsWindowUnlessAnotherIsAskedFor(string keys, WindowShape shape, int window)
    {
        DisplacementSettings settings = CaseText.Parse(CaseText.Smallest + "[displacement]\n" + keys).Experiment.Displacement;

        Assert.Equal(shape, settings.Shape);
        Assert.Equal(window, settings.WindowPixels);
    }

    [Fact]
    public void Parse_SmallestCase_HasTheDefaultsOfTheRecords()
    {
        ExperimentCase experiment = CaseText.Parse(CaseText.Smallest).Experiment;

        Assert.Equal(new DisplacementSettings(), experiment.Displacement);
        Assert.Equal(new RegistrationSettings(), experiment.Registration);
        Assert.Equal(new GasSettings(), experiment.Gas);
        Assert.Equal(new FlowSettings(), experiment.Flow);
        Assert.Null(experiment.Rig);
        Assert.Empty(experiment.Reference.Images);
        Assert.Null(experiment.Footage.Use);
        Assert.Null(experiment.Footage.UseSeconds);
    }

    [Fact]
    public void Parse_RigWithUncertainties_GivesThemInSiUnits()
    {
        RigGeometry rig = CaseText.Parse(CaseText.Smallest + """
            [rig]
            lens_to_flow_mm = 1200
            flow_to_background_mm = 800
            focal_length_mm = 16
            pixel_pitch_um = 1.55
            lens_to_flow_sigma_mm = 5
            flow_to_background_sigma_mm = 3
            focal_length_sigma_mm = 0.3
            [flow]
            shape = "planar"
            path_length_mm = 120
            path_length_sigma_mm = 2
            """).Experiment.Rig!;

        Assert.Equal(0.005, rig.LensToFlowSigmaMetres);
        Assert.Equal(0.003, rig.FlowToBackgroundSigmaMetres);
        Assert.Equal(0.0003, rig.FocalLengthSigmaMetres);
        Assert.Equal(0.002, rig.PathLengthSigmaMetres);
        Assert.Null(rig.BackgroundScaleRelativeSigma);
        Assert.Equal(
            0.003,
            CaseText.Parse(CaseText.Smallest + "[rig]\nlens_to_flow_mm = 1200\nflow_to_background_mm = 800\nbackground_mm_per_px = 0.31\nbackground_scale_sigma_percent = 0.3\n")
                .Experiment.Rig!.BackgroundScaleRelativeSigma);
    }

    [Fact]
    public void Parse_Exhaust_GivesItInSiUnits()
    {
        GasSettings gas = CaseText.Parse(CaseText.Smallest + """
            [gas]
            name = "exhaust"
            equivalence_ratio = 0.29
            relative_humidity_percent = 40
            wavelength_nm = 532
            wavelength_sigma_nm = 15
            gladstone_dale_sigma_percent = 0.8
            ambient_altitude_m = 1000
            ambient_pressure_sigma_pa = 200
            ambient_temperature_sigma_c = 0.5
            """).Experiment.Gas;

        Assert.Equal("exhaust", gas.Name);
        Assert.Equal(0.29, gas.EquivalenceRatio);
        Assert.Equal(0.4, gas.RelativeHumidity);
        Assert.Equal(15e-9, gas.WavelengthSigmaMetres);
        Assert.Equal(0.008, gas.GladstoneDaleRelativeSigma!.Value, 12);
        Assert.Equal(89874.6, gas.AmbientPressurePascal, 0.5); // ISO 2533:1975, geopotential altitude 1000 m
        Assert.Equal(281.65, gas.AmbientTemperatureKelvin, 1e-9);
        Assert.Equal(200, gas.AmbientPressureSigmaPascal);
        Assert.Equal(0.5, gas.AmbientTemperatureSigmaKelvin);
    }

    [Fact]
    public void Parse_AltitudeBesideTemperature_TakesThePressureOnly()
    {
        GasSettings gas = CaseText.Parse(CaseText.Smallest + "[gas]\nambient_altitude_m = 500\nambient_temperature_c = 30\n").Experiment.Gas;

        Assert.Equal(95460.8, gas.AmbientPressurePascal, 0.5); // ISO 2533:1975, geopotential altitude 500 m
        Assert.Equal(303.15, gas.AmbientTemperatureKelvin, 1e-9);
    }

    [Fact]
    public void Parse_Mixture_GivesItsGases()
    {
        GasSettings gas = CaseText.Parse(CaseText.Smallest + """
            [gas]
            composition = { nitrogen = 0.5, "carbon dioxide" = 0.25, water_vapour = 0.25 }
            ambient_name = "air"
            ambient_density_kg_m3 = 1.2
            ambient_density_sigma_kg_m3 = 0.01
            """).Experiment.Gas;

        Assert.Equal([new("nitrogen", 0.5), new("carbon dioxide", 0.25), new("water vapour", 0.25)], gas.Composition);
        Assert.Equal("air", gas.AmbientName);
        Assert.Equal(1.2, gas.AmbientDensityKgM3);
        Assert.Equal(0.01, gas.AmbientDensitySigmaKgM3);
    }

    [Fact]
    public void Parse_MixtureThatMissesOneByOnePercent_IsTaken() =>
        Assert.Equal(2, CaseText.Parse(CaseText.Smallest + "[gas]\ncomposition = {nitrogen = 0.78, oxygen = 0.21}\n").Experiment.Gas.Composition.Count);

    [Fact]
    public void Parse_AxisymmetricFlow_GivesAxisAndSurroundings()
    {
        const string Rig = CaseText.Smallest + "[rig]\nlens_to_flow_mm = 1200\nflow_to_background_mm = 800\nbackground_mm_per_px = 0.31\n";
        FlowSettings given = CaseText.Parse(Rig + """
            [flow]
            shape = "axisymmetric"
            axis = [[100.5, 400], [900, 402]]
            inversion = "smoothed"
            pressure_pa = 99000
            pressure_sigma_pa = 300
            """).Experiment.Flow;
        FlowSettings planar = CaseText.Parse(Rig + """
            [flow]
            shape = "planar"
            path_length_mm = 80
            ambient_edges = ["top", "left"]
            ambient_regions = [[[0, 0], [100, 0], [100, 50]]]
            """).Experiment.Flow;
        FlowSettings found = CaseText.Parse(Rig + "[flow]\nshape = \"axisymmetric\"\naxis = \"find\"\naxis_direction_deg = 90\ntemperature = \"none\"\n").Experiment.Flow;

        Assert.Equal(FlowShape.Axisymmetric, given.Shape);
        Assert.Equal(new AxisLine(100.5, 400, 900, 402), given.Axis);
        Assert.Equal(AbelMethod.Smoothed, given.Inversion);
        Assert.Equal(PictureEdge.Left | PictureEdge.Top, planar.AmbientEdges);
        Assert.Equal((100, 50), Assert.Single(planar.AmbientRegions).Corners[2]);
        Assert.Equal((99000, 300), (given.FlowPressurePascal, given.FlowPressureSigmaPascal));
        Assert.Equal(TemperatureModel.IdealGas, given.Temperature);
        Assert.Null(found.Axis);
        Assert.Equal(90, found.AxisDirectionDegrees);
        Assert.Equal(TemperatureModel.None, found.Temperature);
    }

    [Theory]
    [InlineData("footage.frames = \"f*.png\"\n")]
    [InlineData("footage = { frames = \"f*.png\" }\n")]
    [InlineData("\uFEFF[footage]\r\nframes = 'f*.png' # a comment\r\n")]
    public void Parse_OtherTomlNotation_ReadsTheSame(string text) =>
        Assert.Equal(["f*.png"], CaseText.Parse(text).Experiment.Footage.Frames);
}
