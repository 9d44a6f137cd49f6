using BosFlow.Results.Boards;
using BosFlow.Speckle.Boards;

namespace BosFlow.Cli.Printing;

/// <summary>Decides which files are written, and whether they may be.</summary>
internal static class PrintFiles
{
    /// <summary>The files: the drawings in the order asked for, then the description, named after the first drawing, and its table of dots.</summary>
    /// <param name="outputs">Absolute paths of the drawings, their endings checked.</param>
    /// <param name="contours">Absolute path of the outlines, or null.</param>
    /// <param name="plan">The sheets.</param>
    public static IReadOnlyList<PrintFile> Of(IReadOnlyList<string> outputs, string? contours, SheetPlan plan)
    {
        string first = outputs.Count > 0 ? outputs[0] : contours!;
        string description = Path.ChangeExtension(first, ".json");
        List<PrintFile> files = [];
        foreach (string output in outputs)
            files.AddRange(Drawings(output, plan));
        if (contours is not null)
            files.Add(new PrintFile(PrintFileKind.Contours, contours));
        files.Add(new PrintFile(PrintFileKind.Description, description));
        files.Add(new PrintFile(PrintFileKind.Dots, BoardFile.DotsPathOf(description)));
        return files;
    }

    /// <summary>The kind that an ending chooses; null for an ending that is none.</summary>
    public static PrintFileKind? KindOf(string path) => Path.GetExtension(path).ToUpperInvariant() switch
    {
        ".PDF" => PrintFileKind.Pdf,
        ".SVG" => PrintFileKind.Svg,
        ".PNG" => PrintFileKind.Png,
        _ => null,
    };

    /// <summary>What forbids writing them, a sentence each.</summary>
    /// <param name="files">The files.</param>
    /// <param name="mayOverwrite">Whether files that are there may be replaced.</param>
    public static IEnumerable<string> Problems(IReadOnlyList<PrintFile> files, bool mayOverwrite)
    {
        foreach (string folder in files.Select(file => Path.GetDirectoryName(file.Path)!).Distinct().Where(folder => !Directory.Exists(folder)))
            yield return $"There is no folder {folder}; make it first, or give another path.";
        foreach (PrintFile file in files.Where(file => Directory.Exists(file.Path)))
            yield return $"{file.Path} is a folder; give the name of a file.";
        foreach (IGrouping<string, PrintFile> same in files.GroupBy(file => file.Path).Where(same => same.Count() > 1))
            yield return $"{same.Key} would be written {same.Count()} times; give each output a name of its own.";
        string[] there = [.. files.Select(file => file.Path).Distinct().Where(File.Exists)];
        if (there.Length > 0 && !mayOverwrite)
        {
            string more = there.Length > 1 ? $" and {there.Length - 1} more of its files exist" : " exists";
            yield return $"{there[0]}{more} already and nothing is overwritten; give another --output, or --force to replace.";
        }
    }

    private static IEnumerable<PrintFile> Drawings(string output, SheetPlan plan)
    {
        PrintFileKind kind = KindOf(output)!.Value;
        if (kind == PrintFileKind.Pdf)
            return [new PrintFile(kind, output)];
        if (plan.Sheets.Count == 1)
            return [new PrintFile(kind, output, plan.Sheets[0])];
        string name = Path.ChangeExtension(output, null);
        string ending = Path.GetExtension(output);
        return plan.Sheets
            .Select(sheet => new PrintFile(kind, $"{name}-{sheet.Name}{ending}", sheet))
            .Prepend(new PrintFile(kind, $"{name}-assembly{ending}", IsAssembly: true));
    }
}
