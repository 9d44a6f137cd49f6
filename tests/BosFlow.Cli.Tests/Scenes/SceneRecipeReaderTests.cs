using BosFlow.Cli.CaseFile;
using BosFlow.Cli.Scenes;
using BosFlow.Optics;
using BosFlow.Pipeline;
using BosFlow.Speckle;
using BosFlow.Synthesis;

namespace BosFlow.Cli.Tests.Scenes;

public sealed class SceneRecipeReaderTests
{
    private const string Minimal =
        """
        [scene]
        width_px = 128
        height_px = 96
        frames = 3
        flow_off_frames = 1

        [flow]
        kind = "shift"
        u_px = 1.5
        v_px = -0.5
        """;

    [Fact]
    public void Parse_MinimalRecipe_TakesDefaults()
    {
        SceneRecipe recipe = SceneRecipeReader.Parse(Minimal, "recipe.toml");
        Assert.Equal(128, recipe.Width);
        Assert.Equal(3, recipe.Speckle.DotDiameterPixels);
        Assert.Equal(8, recipe.Sensor.Bits);
        Assert.Null(recipe.Shake);
        Assert.Null(recipe.Rig);
        Assert.Equal(new FlowRecipe.Shift(1.5, -0.5), recipe.Flow);
    }

    [Fact]
    public void Parse_PrintedDiscs_KeepsShapeAndBlur()
    {
        SceneRecipe recipe = SceneRecipeReader.Parse(Minimal + "\n\n[dots]\nshape = \"disc\"\ndiameter_px = 2.5\nblur_px = 1.4\n", "recipe.toml");
        Assert.Equal(DotShape.Disc, recipe.Speckle.Shape);
        Assert.Equal(1.4 / 4, recipe.Speckle.DotSigmaPixels, 1e-12);
        Assert.Equal(Math.Sqrt((2.5 * 2.5) + (1.4 * 1.4)), recipe.Speckle.ImagePixels, 1e-12);
    }

    [Fact]
    public void Parse_EveryFault_IsInSiUnits()
    {
        const string Faults =
            """


            [vibration]
            low_hz = 4
            high_hz = 180
            shift_rms_px = 6
            rotation_rms_deg = 0.1
            scale_rms_percent = 0.2
            line_hz = [90, 120]
            line_px = [2, 2]
            still_frames = 1

            [shutter]
            readout_ms = 10
            exposure_ms = 0.5

            [light]
            flicker_percent = 8
            shadow_percent = 40
            shadow_deg = 30
            glare_level = 1.5
            glare_x_px = 20

            [stabilisation]
            border_px = 12

            [recorder]
            lost_before_frames = [2, 2]
            stamps_tell = false

            [sensor]
            bits = 10
            gamma = 2.2
            """;
        SceneRecipe recipe = SceneRecipeReader.Parse(Minimal + Faults, "recipe.toml");
        Assert.Equal([new VibrationLine(90, 2), new VibrationLine(120, 2)], recipe.Vibration!.Lines);
        Assert.Equivalent(new VibrationSettings { LowHertz = 4, HighHertz = 180, ShiftRmsPixels = 6, RotationRmsDegrees = 0.1, ScaleRmsPercent = 0.2, StillFrames = 1, Lines = recipe.Vibration.Lines }, recipe.Vibration);
        Assert.Equal(new ShutterSettings { ReadoutSeconds = 0.01, ExposureSeconds = 0.0005 }, recipe.Shutter);
        Assert.Equal(new LightSettings { FlickerPercent = 8, Shadow = new ShadowSettings(40, 0, 30, 0, 8), Glare = new GlareSettings(20, 0, 20, 1.5) }, recipe.Light);
        Assert.Equal(new StabilisationSettings { BorderPixels = 12 }, recipe.Stabilisation);
        Assert.Equal([2, 2], recipe.Order!.LostBefore);
        Assert.False(recipe.Order.StampsTell);
        Assert.Equal((10, 2.2, 16), (recipe.Sensor.Bits, recipe.Sensor.Gamma, recipe.Sensor.PictureBits));
        Assert.Empty(recipe.Problems());
    }

    [Fact]
    public void Parse_DemoRecipe_IsInSiUnits()
    {
        SceneRecipe recipe = SceneRecipeReader.Parse(DemoScene.Recipe, "recipe.toml");
        FlowRecipe.Jet jet = Assert.IsType<FlowRecipe.Jet>(recipe.Flow);
        Assert.Equal(0.008, jet.HalfWidthMetres);
        Assert.Equal(573.15, jet.TemperatureKelvin, 1e-9);
        Assert.Equal(293.15, recipe.Gas.AmbientTemperatureKelvin, 1e-9);
        Assert.Equal(35e-3, recipe.Rig!.FocalLengthMetres!.Value, 1e-12);
        Assert.Equal(6, recipe.Shake!.ShiftPixels);
    }

    [Fact]
    public void Parse_SlabsAndShock_AreInSiUnits()
    {
        Assert.Equal(
            new FlowRecipe.SlabGradient(4.5, 90, 0.12),
            Flow("kind = \"slab-gradient\"\ndensity_gradient_kg_m4 = 4.5\ndirection_deg = 90\npath_length_mm = 120"));
        Assert.Equal(
            new FlowRecipe.SlabStripe(60, 40, 30, 0.005, 573.15, 0.12),
            Flow("kind = \"slab-stripe\"\ncentre_x_px = 60\ncentre_y_px = 40\ndirection_deg = 30\nhalf_width_mm = 5\ntemperature_c = 300\npath_length_mm = 120"));
        Assert.Equal(
            new FlowRecipe.SlabBlob(60, 40, 0.005, 573.15, 0.12),
            Flow("kind = \"slab-blob\"\ncentre_x_px = 60\ncentre_y_px = 40\nhalf_width_mm = 5\ntemperature_c = 300\npath_length_mm = 120"));
        Assert.Equal(
            new FlowRecipe.Shock(2, -10, 180, 60, 40, 0.004, 0.12),
            Flow("kind = \"shock\"\nmach = 2\nwedge_deg = -10\ndirection_deg = 180\ncentre_x_px = 60\ncentre_y_px = 40\nshock_thickness_mm = 4\npath_length_mm = 120"));
    }

    [Fact]
    public void Parse_SlabWithoutRig_IsRefused()
    {
        ConfigurationException refusal = Assert.Throws<ConfigurationException>(() => SceneRecipeReader.Parse(
            Minimal[..Minimal.IndexOf("kind", StringComparison.Ordinal)] + "kind = \"slab-gradient\"\ndensity_gradient_kg_m4 = 4.5\ndirection_deg = 90\npath_length_mm = 120", "recipe.toml"));
        Assert.Contains("a flow of the kind slab-gradient needs a [rig]", refusal.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("name = \"exhaust\"\nequivalence_ratio = 0.3\nrelative_humidity_percent = 40\nambient_pressure_pa = 98000\nambient_pressure_sigma_pa = 150\nambient_temperature_c = 21.5\nambient_temperature_sigma_c = 0.5\n")]
    [InlineData("composition = {carbon_dioxide = 0.25, argon = 0.75}\nambient_name = \"air\"\nwavelength_sigma_nm = 10\ngladstone_dale_sigma_percent = 1.5\n")]
    [InlineData("ambient_density_kg_m3 = 1.1\nambient_density_sigma_kg_m3 = 0.01\nambient_pressure_pa = 98000\n")]
    public void CaseText_OfARecipeWithGasAndUncertainties_GivesTheSameGasAndRig(string gas)
    {
        string rig = "\n[rig]\nlens_to_flow_mm = 1000\nflow_to_background_mm = 900\nbackground_mm_per_px = 0.2\nlens_to_flow_sigma_mm = 3\nbackground_scale_sigma_percent = 0.5\n";
        SceneRecipe recipe = SceneRecipeReader.Parse(Minimal + rig + "[gas]\n" + gas, "recipe.toml");

        ExperimentCase experiment = CaseFileReader.Parse(SceneCaseText.Write(new SyntheticScene(recipe, CancellationToken.None), null, "run"), "/tmp/nowhere/case.toml").Experiment;

        Assert.Equal(recipe.Rig, experiment.Rig);
        Assert.Equal(recipe.Gas.Composition, experiment.Gas.Composition);
        Assert.Equal(GasProperties.Of(recipe.Gas) with { Notes = [] }, GasProperties.Of(experiment.Gas) with { Notes = [] });
    }

    [Theory]
    [InlineData("frames = 3", "frame_count = 3", "recipe.toml, line 4: scene.frame_count is not known")]
    [InlineData("u_px = 1.5", "u_px = \"1.5\"", "flow.u_px = \"1.5\" is a text")]
    [InlineData("kind = \"shift\"", "kind = \"sinusoidal\"", "did you mean \"sinusoid\"")]
    [InlineData("kind = \"shift\"", "kind = \"jet\"", "flow.nozzle_x_px is missing")]
    [InlineData("v_px = -0.5", "", "flow.v_px is missing; a flow of the kind shift needs it")]
    [InlineData("v_px = -0.5", "v_px = -0.5\napex_deg = 1", "flow.apex_deg has no meaning for a flow of the kind shift")]
    [InlineData("width_px = 128", "width_px = 16", "scene.width_px = 16 is not allowed")]
    [InlineData("[flow]", "[flows]", "there is no section [flows]")]
    [InlineData("[scene]", "width = 3\n[scene]", "width stands above the first section")]
    [InlineData("[flow]", "[gas]\nname = \"heluim\"\n[flow]", "did you mean \"helium\"?")]
    [InlineData("[flow]", "[sensor]\nbits = 9\n[flow]", "give 8, 10, 12 or 16")]
    [InlineData("[flow]", "[vibration]\nline_hz = [50, 90]\nline_px = [1]\n[flow]", "line 9: vibration.line_hz names 2 tones and vibration.line_px 1")]
    [InlineData("[flow]", "[vibration]\nlow_hz = 200\n[flow]", "line 8: the band of vibration.low_hz = 200 to vibration.high_hz = 100 is empty")]
    [InlineData("[flow]", "[shutter]\nreadout_ms = 20\n[flow]", "line 8: shutter.readout_ms = 20 is longer than the period of a frame; give at most 16.667 ms")]
    [InlineData("[flow]", "[recorder]\nrepeated_frames = [1, 3]\n[flow]", "line 8: recorder.repeated_frames holds 3, but the scene's frames end at 2")]
    [InlineData("[flow]", "[recorder]\nlost_before_frames = [0]\n[flow]", "recorder.lost_before_frames = [0] holds 0; give a list of 1 to 10000 whole numbers from 1")]
    [InlineData("[flow]", "[light]\nflicker_percent = 101\n[flow]", "light.flicker_percent = 101 is out of range")]
    public void Parse_Mistake_IsNamedWithLineKeyAndCure(string right, string wrong, string expected)
    {
        ConfigurationException refusal = Assert.Throws<ConfigurationException>(
            () => SceneRecipeReader.Parse(Minimal.Replace(right, wrong, StringComparison.Ordinal), "recipe.toml"));
        Assert.Contains(expected, refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_NoSuchFile_SaysSo()
    {
        InputDataException refusal = Assert.Throws<InputDataException>(() => SceneRecipeReader.Read("/nowhere/recipe.toml"));
        Assert.Contains("/nowhere/recipe.toml", refusal.Message, StringComparison.Ordinal);
    }

    private static FlowRecipe Flow(string lines) => SceneRecipeReader.Parse(
        Minimal[..Minimal.IndexOf("kind", StringComparison.Ordinal)] + lines + "\n[rig]\nlens_to_flow_mm = 1000\nflow_to_background_mm = 1000\nbackground_mm_per_px = 0.2", "recipe.toml").Flow;
}
