using BosFlow.Cli.CaseFile.Keys;

namespace BosFlow.Cli.CaseFile.Sections;

/// <summary>Which keys of [expected] describe which kind of flow.</summary>
/// <param name="Kind">Kind of flow.</param>
/// <param name="Needed">Keys without which it is not described.</param>
/// <param name="Optional">Keys that may stand beside them.</param>
internal sealed record ExpectedKeyUse(ExpectedKind Kind, IReadOnlyList<CaseKey> Needed, IReadOnlyList<CaseKey> Optional)
{
    /// <summary>All kinds.</summary>
    public static IReadOnlyList<ExpectedKeyUse> All { get; } =
    [
        new(ExpectedKind.Jet, [ExpectedKeys.NozzleDiameter, ExpectedKeys.Temperature, ExpectedKeys.Downstream], [ExpectedKeys.Speed, ExpectedKeys.Pressure]),
        new(ExpectedKind.Plume, [ExpectedKeys.HalfWidth, ExpectedKeys.Temperature], [ExpectedKeys.Speed]),
        new(ExpectedKind.Plate, [ExpectedKeys.Temperature, ExpectedKeys.AboveEdge, ExpectedKeys.PathLength], []),
        new(ExpectedKind.Shock, [ExpectedKeys.Mach, ExpectedKeys.Wedge, ExpectedKeys.PathLength, ExpectedKeys.Thickness], []),
        new(ExpectedKind.Lens, [ExpectedKeys.LensFocalLength, ExpectedKeys.LensDiameter], []),
        new(ExpectedKind.GasCell, [ExpectedKeys.CellGas, ExpectedKeys.PathLength, ExpectedKeys.Layer], []),
        new(ExpectedKind.Deflection, [ExpectedKeys.Deflection, ExpectedKeys.Size], []),
    ];

    /// <summary>Keys that describe one kind of flow or another; the remaining ones hold for all.</summary>
    public static IReadOnlyList<CaseKey> Describing { get; } = [.. All.SelectMany(use => use.Needed.Concat(use.Optional)).Distinct()];

    /// <summary>The use of a kind.</summary>
    /// <param name="kind">Kind of flow.</param>
    public static ExpectedKeyUse Of(ExpectedKind kind) => All.First(use => use.Kind == kind);

    /// <summary>The word of a kind in the case file.</summary>
    /// <param name="kind">Kind of flow.</param>
    public static string WordOf(ExpectedKind kind) => ExpectedKeys.Kind.Choices.First(choice => choice.Value == kind).Word;

    /// <summary>Whether a key means something to this kind.</summary>
    /// <param name="key">A key of [expected].</param>
    public bool Takes(CaseKey key) => Needed.Contains(key) || Optional.Contains(key) || !Describing.Contains(key);
}
