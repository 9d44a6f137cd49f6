using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using BosFlow.Results.Files;
using BosFlow.Validation;

namespace BosFlow.Cli.Scenes;

/// <summary>Writes the results of the validation as text, Markdown, CSV and JSON.</summary>
internal static class ValidationReport
{
    /// <summary>Name of the page.</summary>
    public const string PageName = "validation.md";

    private static readonly string[] FigureColumns = ["study", "figure", "value", "unit", "required", "verdict", "note"];

    /// <summary>The figures of one study as a table for a terminal or a page.</summary>
    /// <param name="result">The study.</param>
    public static TextTable Figures(StudyResult result) => new(
        ["figure", "value", "unit", "required", "verdict"],
        [.. result.Figures.Select(figure => (IReadOnlyList<string>)[Title(figure), Number(figure.Value), figure.Unit, Required(figure), Verdict(figure)])]);

    /// <summary>Writes page and tables; files of an earlier validation are replaced.</summary>
    /// <param name="folder">Absolute path; made where it does not exist.</param>
    /// <param name="results">All studies.</param>
    /// <param name="heading">One line below the title: what was run.</param>
    public static void Write(string folder, IReadOnlyList<StudyResult> results, string heading)
    {
        try
        {
            Directory.CreateDirectory(folder);
            AtomicFile.WriteText(Path.Combine(folder, PageName), Page(results, heading));
            AtomicFile.WriteText(Path.Combine(folder, "figures.csv"), Csv(FigureColumns, [.. results.SelectMany(result => result.Figures).Select(Cells)]));
            foreach (StudyTable table in results.SelectMany(result => result.Tables))
                AtomicFile.WriteText(Path.Combine(folder, table.Name + ".csv"), Csv(table.Columns, [.. table.Rows.Select(row => (IReadOnlyList<string>)[.. row.Select(Number)])]));
        }
        catch (Exception exception) when (exception is UnauthorizedAccessException or IOException)
        {
            throw new InputDataException($"The folder {folder} cannot be written ({exception.Message}); choose another with --output.", exception);
        }
    }

    /// <summary>All figures for machines.</summary>
    /// <param name="results">All studies.</param>
    public static JsonArray ToJson(IReadOnlyList<StudyResult> results) => [.. results.SelectMany(result => result.Figures).Select(figure => new JsonObject
    {
        ["study"] = figure.Study,
        ["figure"] = figure.Name,
        ["value"] = double.IsFinite(figure.Value) ? figure.Value : null,
        ["unit"] = figure.Unit,
        ["at_least"] = figure.AtLeast,
        ["at_most"] = figure.AtMost,
        ["passes"] = figure.Passes,
    })];

    private static string Page(IReadOnlyList<StudyResult> results, string heading)
    {
        var text = new StringBuilder();
        text.Append("# Validation on synthetic scenes\n\n").Append(heading).Append("\n\n");
        int required = results.SelectMany(result => result.Figures).Count(figure => figure.IsRequired);
        int missed = results.SelectMany(result => result.Figures).Count(figure => !figure.Passes);
        text.Append(CultureInfo.InvariantCulture, $"{required - missed} of {required} required figures are met. ");
        text.Append("Every scene is rendered from exact dot positions; nothing is resampled. A figure without a requirement is reported for information. Wavelengths, shifts and single points are in the CSV files beside this page.\n");
        foreach (StudyResult result in results)
            text.Append("\n## ").Append(result.Title).Append("\n\n").Append(result.Description).Append("\n\n").Append(Figures(result).ToMarkdown());
        return text.ToString();
    }

    private static string Title(Figure figure) => figure.Name + (figure.Note.Length > 0 ? $" ({figure.Note})" : string.Empty);

    private static IReadOnlyList<string> Cells(Figure figure) =>
        [figure.Study, figure.Name, Number(figure.Value), figure.Unit, Required(figure), Verdict(figure), figure.Note];

    private static string Required(Figure figure) => figure switch
    {
        { AtLeast: double least, AtMost: double most } => $"{Number(least)} to {Number(most)}",
        { AtLeast: double least } => $"at least {Number(least)}",
        { AtMost: double most } => $"at most {Number(most)}",
        _ => "-",
    };

    private static string Verdict(Figure figure) => !figure.IsRequired ? "-" : figure.Passes ? "met" : "MISSED";

    private static string Number(double value) =>
        value.ToString(Math.Abs(value) < 0.01 ? "0.#####" : "0.####", CultureInfo.InvariantCulture);

    private static string Csv(IReadOnlyList<string> columns, IReadOnlyList<IReadOnlyList<string>> rows)
    {
        var text = new StringBuilder();
        foreach (IReadOnlyList<string> row in rows.Prepend(columns))
            text.AppendJoin(',', row.Select(Quote)).Append('\n');
        return text.ToString();
    }

    // RFC 4180, section 2: fields with commas or quotation marks stand in quotation marks.
    private static string Quote(string cell) =>
        cell.AsSpan().IndexOfAny(',', '"') < 0 ? cell : "\"" + cell.Replace("\"", "\"\"", StringComparison.Ordinal) + "\"";
}
