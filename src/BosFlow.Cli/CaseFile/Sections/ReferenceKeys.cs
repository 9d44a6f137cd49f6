using BosFlow.Cli.CaseFile.Keys;
using BosFlow.Cli.CaseFile.Toml;
using BosFlow.Registration;

namespace BosFlow.Cli.CaseFile.Sections;

/// <summary>Keys of [reference].</summary>
internal static class ReferenceKeys
{
    private const string Name = "reference";

    public static readonly TextKey Image = new()
    {
        Section = Name,
        Name = "image",
        Description = "One picture of the background without flow, from the same camera at the same place.",
        What = "the path of a picture",
        Example = TomlLiteral.Of("reference.png"),
        SetInNewCase = true,
    };

    public static readonly TextListKey Images = new()
    {
        Section = Name,
        Name = "images",
        Description = "Several such pictures: a pattern or a list. They are aligned to the first and combined.",
        Example = TomlLiteral.Of("reference_*.png"),
    };

    public static readonly FrameRangeKey Use = new()
    {
        Section = Name,
        Name = "use",
        Description = "Frames of the footage without flow. Where none of image, images and use is given, the whole clip is the reference: the mean flow is then taken out, and only its changes remain.",
        Example = TomlLiteral.Of("0:30"),
    };

    public static readonly ChoiceKey<ReferenceCombination> Combine = new()
    {
        Section = Name,
        Name = "combine",
        Description = "How several pictures become one: the mean has the least noise, the median survives a passing disturbance.",
        Choices = [("mean", ReferenceCombination.Mean), ("median", ReferenceCombination.Median)],
        Default = TomlLiteral.Of("mean"),
    };

    public static readonly CaseSection Section = new(Name, "The background without flow; its pixel grid is the result's.", [Image, Images, Use, Combine]);
}
