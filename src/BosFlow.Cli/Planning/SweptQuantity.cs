using BosFlow.Cli.CaseFile.Keys;
using BosFlow.Cli.CaseFile.Sections;
using BosFlow.Planning;

namespace BosFlow.Cli.Planning;

/// <summary>A quantity that --sweep can vary.</summary>
/// <param name="Name">Its name as it is typed: that of its key, where it has one.</param>
/// <param name="Quantity">What it is.</param>
/// <param name="Label">Its name in words.</param>
/// <param name="Unit">Its unit as people read it; empty for a pure number.</param>
/// <param name="UnitsPerSi">Value in that unit for one of the SI unit.</param>
/// <param name="Key">The key whose range holds; null for the split.</param>
internal sealed record SweptQuantity(string Name, PlanQuantity Quantity, string Label, string Unit, double UnitsPerSi, CaseKey? Key)
{
    /// <summary>All of them.</summary>
    public static IReadOnlyList<SweptQuantity> All { get; } =
    [
        new("split", PlanQuantity.Split, "split", string.Empty, 1, null),
        Of(RigKeys.LensToFlow, PlanQuantity.LensToFlow, "lens to flow", "mm", 1e3),
        Of(RigKeys.FlowToBackground, PlanQuantity.FlowToBackground, "flow to board", "mm", 1e3),
        Of(RigKeys.FocalLength, PlanQuantity.FocalLength, "focal length", "mm", 1e3),
        Of(RigKeys.FNumber, PlanQuantity.FNumber, "f-number", string.Empty, 1),
        Of(BoardKeys.Dot, PlanQuantity.Dot, "dot on the paper", "mm", 1e3),
        Of(CameraKeys.Exposure, PlanQuantity.Exposure, "exposure", "ms", 1e3),
        Of(CameraKeys.Noise, PlanQuantity.Noise, "noise of a pixel", "%", 1e2),
        Of(DisplacementKeys.Window, PlanQuantity.Window, "window", "px", 1),
    ];

    /// <summary>Whether steps are equal ratios, as between the stops of a lens, instead of equal differences.</summary>
    public bool HasEqualRatios => Quantity is PlanQuantity.FNumber or PlanQuantity.FocalLength or PlanQuantity.Exposure or PlanQuantity.Noise;

    private static SweptQuantity Of(CaseKey key, PlanQuantity quantity, string label, string unit, double unitsPerSi) => new(key.Name, quantity, label, unit, unitsPerSi, key);
}
