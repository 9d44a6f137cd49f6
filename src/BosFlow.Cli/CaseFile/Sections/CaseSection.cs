using BosFlow.Cli.CaseFile.Keys;

namespace BosFlow.Cli.CaseFile.Sections;

/// <summary>A section of the case file.</summary>
/// <param name="Name">Name between the brackets.</param>
/// <param name="Description">What it is about, one sentence.</param>
/// <param name="Keys">Its keys, in the order of template and documentation.</param>
internal sealed record CaseSection(string Name, string Description, IReadOnlyList<CaseKey> Keys)
{
    /// <summary>Whether a new case lists its keys briefly, since most cases do without them and what a run needs should stay in sight.</summary>
    public bool IsListedBriefly { get; init; }
}
