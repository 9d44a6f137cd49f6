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

    public static readonly FrameRangesKey UseLater = new()
    {
        Section = Name,
        Name = "use_later",
        Description = "Further stretches of flow-off frames, after the flow or between flows: one range or a list. Each is measured against the reference; what it shows is the drift of the board against the camera.",
        Example = TomlLiteral.Of("300:330"),
    };

    public static readonly ChoiceKey<DriftHandling> Drift = new()
    {
        Section = Name,
        Name = "drift",
        Description = "What is done about that drift: remove takes it out of every frame in proportion to time between the stretches before and after it, report only tells it.",
        Choices = [("remove", DriftHandling.Remove), ("report", DriftHandling.Report)],
        Default = TomlLiteral.Of("remove"),
    };

    public static readonly ChoiceKey<ReferenceCombination> Combine = new()
    {
        Section = Name,
        Name = "combine",
        Description = "How several pictures become one: the mean has the least noise, the median survives a passing disturbance; joint fits one pattern, finer than the pixels, to all of them, which takes the error of interpolation off where the camera shakes (it needs some ten frames and some time at the start).",
        Choices = [("mean", ReferenceCombination.Mean), ("median", ReferenceCombination.Median), ("joint", ReferenceCombination.Joint)],
        Default = TomlLiteral.Of("mean"),
    };

    public static readonly CaseSection Section = new(Name, "The background without flow; its pixel grid is the result's.", [Image, Images, Use, UseLater, Drift, Combine]);
}
