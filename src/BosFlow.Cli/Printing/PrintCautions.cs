namespace BosFlow.Cli.Printing;

/// <summary>What can hurt the one who makes a board.</summary>
internal static class PrintCautions
{
    /// <summary>Sentences for a job: what concerns it, and no more.</summary>
    /// <param name="job">The job.</param>
    public static IEnumerable<string> For(PrintJob job)
    {
        yield return "Paper, foam and glue burn: keep the board and its mount out of the exhaust and away from hot parts.";
        if (job.Plan.Sheets.Count > 1)
            yield return "Knives: cut along a steel rule with a guard, away from hand and body. Spray glue: flammable, needs fresh air.";
        if (job.Files.Any(file => file.Kind == PrintFileKind.Contours))
            yield return "Laser cutters: enclosure and extraction on, never unattended; foam catches fire and its fumes harm; never cut PVC or vinyl, which gives off chlorine compounds.";
        yield return "The makers' instructions and the rules of your workshop and country come before these lines.";
    }
}
