using BosFlow.Results.NetCdf;
using BosFlow.Results.Runs;
using BosFlow.TestKit;

namespace BosFlow.Results.Tests.Runs;

/// <summary>docs/file-formats.md names everything that the files hold.</summary>
public sealed class DocumentedFormatTests
{
    // Attributes that say in the file itself, in words or by a published convention, what they are.
    private static readonly string[] SelfExplaining =
    [
        "title", "standard_name", "axis", "positive", "coordinates", "ancillary_variables", "cell_methods", "flag_masks", "flag_meanings",
        "grid_spacing_px", "background_motion_comment", "white_level_dn",
    ];

    private static readonly string Text = File.ReadAllText(Repository.PathOf("docs/file-formats.md"));

    [Fact]
    public void Frame_EveryVariableAndAttribute_IsDocumented() =>
        AssertDocumented(FrameFile.ToContent(SampleRun.Frame(1, "black"), SampleRun.Scale with { DensityGradientPerPixel = -17 }, "id"));

    [Fact]
    public void SummaryAndReference_EveryVariableAndAttribute_IsDocumented()
    {
        AssertDocumented(SummaryFile.ToContent(SampleRun.Summary(), "id"));
        AssertDocumented(SummaryFile.ToContent(SampleDensity.Summary(SampleDensity.Axisymmetric()), "id"));
        AssertDocumented(SummaryFile.ToContent(SampleDensity.Summary(SampleDensity.Planar()), "id"));
        AssertDocumented(SummaryFile.ToContent(SampleDensity.Summary(SampleDensity.NotAnchored(SampleDensity.Planar())), "id"));
        AssertDocumented(SummaryFile.ToContent(SampleDensity.Summary(SampleDensity.PathIntegrated()), "id"));
        AssertDocumented(ReferenceFile.ToContent(SampleRun.Summary().Reference.Image, "one picture", "id"));
    }

    [Fact]
    public void Maps_EveryPictureOfADensity_IsDocumented() => Assert.All(
        DrawnDensity.Round.Concat(DrawnDensity.Planar).Concat(DrawnDensity.PathIntegrated).Concat(DrawnDensity.NotAnchored),
        p => Assert.Contains($"`{p.FileName}`", Text, StringComparison.Ordinal));

    [Fact]
    public void Profiles_EveryColumn_IsDocumented() => Assert.All(
        ProfilesTable.ToText([]).Trim().Split(','),
        column => Assert.Contains($"`{column}`", Text, StringComparison.Ordinal));

    private static void AssertDocumented(NetCdfContent content)
    {
        IEnumerable<string> names = content.Variables.Select(v => v.Name.StartsWith("sigma_", StringComparison.Ordinal) && !v.Name.StartsWith("sigma_random_", StringComparison.Ordinal) ? v.Name[6..] : v.Name)
            .Concat(content.Attributes.Select(a => a.Name))
            .Concat(content.Variables.SelectMany(v => v.Attributes).Select(a => a.Name))
            .Except(SelfExplaining);

        // A pair is documented by its first name and the ending of the second: `..._y`.
        Assert.All(names, name => Assert.True(Text.Contains($"`{name}`", StringComparison.Ordinal) || Text.Contains($"`{name[..^1]}x`, `..._y`", StringComparison.Ordinal), $"{name} is not in docs/file-formats.md"));
    }
}
