namespace BosFlow.Architecture.Tests.Messages;

/// <summary>The headings of the page of messages: what the program was doing, from the folder of the source.</summary>
internal static class MessageGroups
{
    // The first prefix that fits counts; a folder without one stands under its own name.
    private static readonly (string Prefix, string Heading)[] Headings =
    [
        ("src/BosFlow.Cli/CaseFile", "The case file"),
        ("src/BosFlow.Cli/Printing", "bosflow print and printed boards"),
        ("src/BosFlow.Results/Boards", "bosflow print and printed boards"),
        ("src/BosFlow/Speckle", "bosflow print and printed boards"),
        ("src/BosFlow/Inspection", "bosflow print and printed boards"),
        ("src/BosFlow.Media/Fiducials", "bosflow print and printed boards"),
        ("src/BosFlow.Cli/Commands/Print", "bosflow print and printed boards"),
        ("src/BosFlow.Cli/Planning", "bosflow plan"),
        ("src/BosFlow.Cli/Commands/Plan", "bosflow plan"),
        ("src/BosFlow.Results/Plans", "bosflow plan"),
        ("src/BosFlow/Planning", "bosflow plan"),
        ("src/BosFlow.Cli/Triage", "bosflow triage"),
        ("src/BosFlow.Cli/Commands/Triage", "bosflow triage"),
        ("src/BosFlow.Results/Triage", "bosflow triage"),
        ("src/BosFlow/Triage", "bosflow triage"),
        ("src/BosFlow.Cli/Scenes", "bosflow synth, demo and validate"),
        ("src/BosFlow.Cli/Commands/Synth", "bosflow synth, demo and validate"),
        ("src/BosFlow.Cli/Commands/Demo", "bosflow synth, demo and validate"),
        ("src/BosFlow.Cli/Commands/Validate", "bosflow synth, demo and validate"),
        ("src/BosFlow/Synthesis", "bosflow synth, demo and validate"),
        ("src/BosFlow/Validation", "bosflow synth, demo and validate"),
        ("src/BosFlow.Cli/Commands", "Any command"),
        ("src/BosFlow.Cli/CommandLine", "Any command"),
        ("src/BosFlow.Cli/Doctor", "bosflow doctor"),
        ("src/BosFlow.Cli/Running", "bosflow run: the run and its folder"),
        ("src/BosFlow.Results", "bosflow run: the run and its folder"),
        ("src/BosFlow/Pipeline", "bosflow run: the run and its folder"),
        ("src/BosFlow.Media", "Pictures and video"),
        ("src/BosFlow/Footage", "Pictures and video"),
        ("src/BosFlow/Registration", "Reference and motion of the camera"),
        ("src/BosFlow/Displacement", "Displacement"),
        ("src/BosFlow/Optics", "Rig, gas and scale"),
        ("src/BosFlow/Density", "Density and temperature"),
        ("src/BosFlow.Numerics", "Density and temperature"),
    ];

    /// <summary>The heading for a source file.</summary>
    /// <param name="file">Absolute path.</param>
    public static string Of(string file)
    {
        string path = SourceTree.Relative(file);
        string? heading = Headings.FirstOrDefault(group => path.StartsWith(group.Prefix, StringComparison.Ordinal)).Heading;
        return heading ?? Path.GetFileName(Path.GetDirectoryName(path)!);
    }
}
