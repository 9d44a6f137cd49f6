using BosFlow.Cli.CaseFile;
using BosFlow.Displacement;
using BosFlow.Footage;
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
    public void Parse_SmallestCase_HasTheDefaultsOfTheRecords()
    {
        ExperimentCase experiment = CaseText.Parse(CaseText.Smallest).Experiment;

        Assert.Equal(new DisplacementSettings(), experiment.Displacement);
        Assert.Equal(new RegistrationSettings(), experiment.Registration);
        Assert.Equal(new Optics.GasSettings(), experiment.Gas);
        Assert.Null(experiment.Rig);
        Assert.Empty(experiment.Reference.Images);
        Assert.Null(experiment.Footage.Use);
        Assert.Null(experiment.Footage.UseSeconds);
    }

    [Theory]
    [InlineData("footage.frames = \"f*.png\"\n")]
    [InlineData("footage = { frames = \"f*.png\" }\n")]
    [InlineData("\uFEFF[footage]\r\nframes = 'f*.png' # a comment\r\n")]
    public void Parse_OtherTomlNotation_ReadsTheSame(string text) =>
        Assert.Equal(["f*.png"], CaseText.Parse(text).Experiment.Footage.Frames);
}
