using BosFlow.Planning;
using BosFlow.Results.Plans;

namespace BosFlow.Cli.Planning;

/// <summary>The sheet of a plan as lines for a terminal.</summary>
internal static class PlanWords
{
    /// <summary>Sheet, what should be changed, the command that prints the board, and cautions.</summary>
    /// <param name="plan">The plan.</param>
    public static IEnumerable<string> Of(PlanResult plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return [.. Sheet(PlanSheet.Of(plan)), .. Changes(plan), .. Board(plan), .. Cautions()];
    }

    /// <summary>A study as a table.</summary>
    /// <param name="study">What varying the plan gave.</param>
    public static IEnumerable<string> Of(PlanStudy study)
    {
        ArgumentNullException.ThrowIfNull(study);
        yield return study.Title;
        foreach (string line in new Scenes.TextTable(study.Columns, study.Rows).Lines())
            yield return "  " + line;
        foreach (string line in TextLines.Of(study.Note, "  ", "  "))
            yield return line;
        yield return string.Empty;
    }

    /// <summary>The cautions at the foot of every sheet and table.</summary>
    public static IEnumerable<string> Cautions() =>
        ["Cautions", .. PlanCautions.Sentences.SelectMany(sentence => TextLines.Of(sentence, "  - ", "    "))];

    private static IEnumerable<string> Sheet(IReadOnlyList<PlanGroup> groups)
    {
        PlanLine[] all = [.. groups.SelectMany(group => group.Lines)];
        int name = all.Max(line => line.Name.Length);
        int value = all.Max(line => line.Value.Length);
        int unit = all.Max(line => line.Unit.Length);
        foreach (PlanGroup group in groups)
        {
            yield return group.Title;
            foreach (PlanLine line in group.Lines)
                yield return $"  {line.Name.PadRight(name)}  {(line.Value.Length == 0 ? "-" : line.Value).PadLeft(value)} {line.Unit.PadRight(unit)}  {line.Remark}".TrimEnd();
            if (group.Note.Length > 0)
            {
                foreach (string line in TextLines.Of(group.Note, "  ", "  "))
                    yield return line;
            }

            yield return string.Empty;
        }
    }

    private static IEnumerable<string> Changes(PlanResult plan)
    {
        if (plan.Warnings.Count == 0)
            return ["Nothing was found that calls for a change.", string.Empty];
        return
        [
            "What should be changed, most important first",
            .. plan.Warnings.SelectMany((warning, i) => TextLines.Of($"{warning.Sentence} {warning.Remedy}", FormattableString.Invariant($"  {i + 1}. "), "     ")),
            string.Empty,
        ];
    }

    private static IEnumerable<string> Board(PlanResult plan)
    {
        yield return "Print the board";
        yield return "  " + BoardCommand.Of(plan);
        if (BoardCommand.OneSheet(plan) is { Length: > 0 } sentence)
            yield return "  " + sentence;
        yield return string.Empty;
    }
}
