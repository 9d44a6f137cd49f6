namespace BosFlow.Cli.CaseFile.Sections;

/// <summary>Everything a case file may hold.</summary>
internal static class CaseSections
{
    /// <summary>The sections in the order of the template.</summary>
    public static IReadOnlyList<CaseSection> All { get; } =
    [
        FootageKeys.Section,
        ReferenceKeys.Section,
        RegionKeys.Section,
        RegistrationKeys.Section,
        DisplacementKeys.Section,
        RigKeys.Section,
        CameraKeys.Section,
        BoardKeys.Section,
        ExpectedKeys.Section,
        LimitsKeys.Section,
        GasKeys.Section,
        FlowKeys.Section,
        OutputKeys.Section,
    ];
}
