using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using BosFlow.Results.Files;
using BosFlow.Triage;

namespace BosFlow.Results.Triage;

/// <summary>The folder with the page and the document of a judgement.</summary>
public static class TriageFolder
{
    private const string PageName = "triage.html";
    private const string DocumentName = "triage.json";

    private static readonly JsonSerializerOptions Layout = new() { WriteIndented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>Refuses a folder before any work: a file of its name, or files of a judgement in it that are not to be replaced.</summary>
    /// <param name="folder">Absolute path.</param>
    /// <param name="force">Whether files that are there are replaced.</param>
    /// <exception cref="InputDataException">The folder may not be used.</exception>
    public static void Check(string folder, bool force)
    {
        if (File.Exists(folder))
            throw new InputDataException($"{folder} is a file; give the name of a folder with --output.");
        string[] there = [.. new[] { PageName, DocumentName }.Where(name => File.Exists(Path.Combine(folder, name)))];
        if (!force && there.Length > 0)
            throw new InputDataException($"{folder} holds {string.Join(", ", there)} already and nothing is overwritten; give another --output, or --force to replace.");
    }

    /// <summary>Writes page and document, both or none.</summary>
    /// <param name="folder">Absolute path; made where it does not exist.</param>
    /// <param name="result">The judgement.</param>
    /// <param name="document">The document for machines, with its name and version.</param>
    /// <param name="programVersion">Version of the program.</param>
    /// <returns>Path of the page.</returns>
    public static string Write(string folder, TriageResult result, JsonObject document, string programVersion)
    {
        ArgumentNullException.ThrowIfNull(document);
        string page = Path.Combine(folder, PageName);
        Directory.CreateDirectory(folder);
        using var together = new FileSet();
        together.Write(page, stream => stream.Write(Encoding.UTF8.GetBytes(TriagePage.ToHtml(result, programVersion))));
        together.Write(Path.Combine(folder, DocumentName), stream => stream.Write(Encoding.UTF8.GetBytes(document.ToJsonString(Layout) + "\n")));
        together.Commit();
        return page;
    }
}
