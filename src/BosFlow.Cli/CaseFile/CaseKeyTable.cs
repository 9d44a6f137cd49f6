using System.Text;
using BosFlow.Cli.CaseFile.Keys;
using BosFlow.Cli.CaseFile.Sections;

namespace BosFlow.Cli.CaseFile;

/// <summary>Writes the documentation of every key of the case file (docs/case-file.md).</summary>
internal static class CaseKeyTable
{
    /// <summary>The page in Markdown.</summary>
    public static string Write()
    {
        var page = new StringBuilder();
        page.Append(
            """
            # The case file

            One TOML file describes one experiment. `bosflow new my-flight` writes a commented one, `bosflow run my-flight/case.toml --dry-run`
            checks it together with its footage and writes nothing. All problems of a file are told at once, each with its line.

            - Every quantity names its unit at the end of its key: `lens_to_flow_mm`. No unit is ever implied.
            - Paths are relative to the case file; spaces and letters of any language are fine.
            - Positions are px of the reference picture: x to the right, y down, the middle of the first pixel is (0, 0).
            - A key that does not exist is an error, never ignored.
            - Editors complete and check the file with [case-file.schema.json](case-file.schema.json).

            This page and the schema are generated from the program's own declaration of the keys
            (`bosflow case-keys --markdown` and `bosflow case-keys --schema`); a test compares them.

            """);
        AppendSections(page, CaseSections.All);
        page.Append(
            """

            ## A short complete case

            ```toml
            [footage]
            frames = "frames/*.png"
            frame_rate_hz = 60.0

            [reference]
            image = "reference.png"

            [region]
            flow = [[[400, 100], [900, 100], [900, 500], [400, 500]]]

            [rig]
            lens_to_flow_mm = 1200.0
            flow_to_background_mm = 800.0
            background_mm_per_px = 0.31

            [gas]
            ambient_temperature_c = 22.0
            ambient_pressure_pa = 99800.0
            ```

            """);
        return page.ToString();
    }

    /// <summary>Appends a heading and a table for every section.</summary>
    /// <param name="page">The page.</param>
    /// <param name="sections">The sections.</param>
    public static void AppendSections(StringBuilder page, IEnumerable<CaseSection> sections)
    {
        foreach (CaseSection section in sections)
        {
            page.Append("\n## [").Append(section.Name).Append("]\n\n").Append(section.Description).Append("\n\n");
            page.Append("| key | default | allowed | meaning |\n| --- | --- | --- | --- |\n");
            foreach (CaseKey key in section.Keys)
                page.Append(Row(key));
        }
    }

    private static string Row(CaseKey key)
    {
        string standard = key.Default is null ? "-" : $"`{key.Default}`";
        return $"| `{key.Name}` | {standard} | {Cell(key.Allowed)} | {Cell(key.Description)} |\n";
    }

    private static string Cell(string text) => text.Replace("|", "\\|", StringComparison.Ordinal);
}
