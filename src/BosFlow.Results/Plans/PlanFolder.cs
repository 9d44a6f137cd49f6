using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using BosFlow.Planning;
using BosFlow.Results.Files;

namespace BosFlow.Results.Plans;

/// <summary>Writes a plan into a folder: page, pictures, and a document for machines.</summary>
public static class PlanFolder
{
    /// <summary>Name of the page.</summary>
    public const string PageName = "plan.html";

    /// <summary>Name of the document for machines.</summary>
    public const string DocumentName = "plan.json";

    /// <summary>Name of the picture of the rig.</summary>
    public const string PictureName = "plan.png";

    private static readonly JsonSerializerOptions Layout = new() { WriteIndented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>Refuses a folder before any work: a file of its name, or plan files in it that are not to be replaced.</summary>
    /// <param name="folder">Absolute path.</param>
    /// <param name="pictures">Names of further pictures that will be written.</param>
    /// <param name="force">Whether files that are there are replaced.</param>
    /// <exception cref="InputDataException">The folder may not be used.</exception>
    public static void Check(string folder, IReadOnlyList<string> pictures, bool force)
    {
        ArgumentNullException.ThrowIfNull(pictures);
        if (File.Exists(folder))
            throw new InputDataException($"{folder} is a file; give the name of a folder with --output.");
        if (force)
            return;
        string[] there = [.. new[] { PageName, DocumentName, PictureName }.Concat(pictures).Where(name => File.Exists(Path.Combine(folder, name)))];
        if (there.Length > 0)
            throw new InputDataException($"{folder} holds {string.Join(", ", there)} already and nothing is overwritten; give another --output, or --force to replace.");
    }

    /// <summary>Writes everything: the files are there all or not at all.</summary>
    /// <param name="folder">Absolute path; made where it does not exist.</param>
    /// <param name="plan">The plan.</param>
    /// <param name="studies">What varying it gave.</param>
    /// <param name="document">The document for machines, with its name and version.</param>
    /// <param name="programVersion">Version of the program.</param>
    /// <returns>Paths of the files, the page first.</returns>
    public static IReadOnlyList<string> Write(string folder, PlanResult plan, IReadOnlyList<PlanStudy> studies, JsonObject document, string programVersion)
    {
        ArgumentNullException.ThrowIfNull(studies);
        ArgumentNullException.ThrowIfNull(document);
        (string Name, byte[] Bytes)[] files =
        [
            (PageName, System.Text.Encoding.UTF8.GetBytes(PlanPage.ToHtml(plan, studies, programVersion))),
            (DocumentName, System.Text.Encoding.UTF8.GetBytes(document.ToJsonString(Layout) + "\n")),
            (PictureName, RigSketch.Render(plan)),
            .. studies.Select(study => (study.FileName, study.Png)),
        ];
        Directory.CreateDirectory(folder);
        using var together = new FileSet();
        foreach ((string name, byte[] bytes) in files)
            together.Write(Path.Combine(folder, name), stream => stream.Write(bytes));
        together.Commit();
        return [.. files.Select(file => Path.Combine(folder, file.Name))];
    }
}
