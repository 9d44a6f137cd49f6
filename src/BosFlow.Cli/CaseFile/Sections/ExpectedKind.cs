namespace BosFlow.Cli.CaseFile.Sections;

/// <summary>Kinds of flow that a plan can expect.</summary>
internal enum ExpectedKind
{
    /// <summary>A free round jet.</summary>
    Jet,

    /// <summary>A round column of hot gas.</summary>
    Plume,

    /// <summary>A heated vertical plate.</summary>
    Plate,

    /// <summary>An oblique shock.</summary>
    Shock,

    /// <summary>A weak lens as a test object.</summary>
    Lens,

    /// <summary>A cell with another gas.</summary>
    GasCell,

    /// <summary>A deflection that is known.</summary>
    Deflection,
}
