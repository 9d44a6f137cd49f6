using BosFlow.Cli.Scenes;
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
    [InlineData("[flow]", "[sensor]\nbits = 12\n[flow]", "give 8 or 16")]
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
}
