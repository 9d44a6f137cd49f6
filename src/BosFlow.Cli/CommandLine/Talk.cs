using System.CommandLine;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using Spectre.Console;

namespace BosFlow.Cli.CommandLine;

/// <summary>How a command speaks to its user: results on stdout, everything else on stderr.</summary>
public sealed class Talk
{
    // Letters of any language stay readable; the document is no part of a web page.
    private static readonly JsonSerializerOptions DocumentLayout = new()
    {
        WriteIndented = true,
        NewLine = "\n",
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    private readonly CommandEnvironment environment;

    private Talk(CommandEnvironment environment, bool json, bool quiet, bool verbose, bool color)
    {
        this.environment = environment;
        Json = json;
        Quiet = quiet;
        Verbose = verbose;
        Color = color;
    }

    /// <summary>Whether stdout carries one JSON document and nothing else.</summary>
    public bool Json { get; }

    /// <summary>Whether remarks and progress are left out.</summary>
    public bool Quiet { get; }

    /// <summary>Whether details are wanted.</summary>
    public bool Verbose { get; }

    /// <summary>Whether stderr may be coloured.</summary>
    public bool Color { get; }

    /// <summary>Whether a progress line may rewrite itself on stderr.</summary>
    public bool LiveProgress => environment.ErrorIsTerminal && !Quiet;

    /// <summary>Speaks as the options of a command line ask.</summary>
    /// <param name="parsed">The parsed command line.</param>
    /// <param name="environment">Writers and terminal facts.</param>
    public static Talk Of(ParseResult parsed, CommandEnvironment environment)
    {
        ArgumentNullException.ThrowIfNull(parsed);
        ArgumentNullException.ThrowIfNull(environment);
        return new Talk(
            environment,
            CommonOptions.Given(parsed, CommonOptions.Json),
            CommonOptions.Given(parsed, CommonOptions.Quiet),
            CommonOptions.Given(parsed, CommonOptions.Verbose),
            environment.ColorAllowed && !CommonOptions.Given(parsed, CommonOptions.NoColor));
    }

    /// <summary>A line of the result, on stdout; left out where a JSON document is asked for.</summary>
    /// <param name="line">The line.</param>
    public void Result(string line)
    {
        if (!Json)
            environment.Output.WriteLine(line);
    }

    /// <summary>The result for machines, on stdout; left out where it is not asked for.</summary>
    /// <param name="name">Name of the document, usually the command.</param>
    /// <param name="version">Version of the document's layout.</param>
    /// <param name="content">The content.</param>
    public void Document(string name, int version, JsonObject content)
    {
        ArgumentNullException.ThrowIfNull(content);
        if (!Json)
            return;
        environment.Output.WriteLine(Headed(name, version, content).ToJsonString(DocumentLayout));
    }

    /// <summary>A document with its name and version in front.</summary>
    /// <param name="name">Name of the document, usually the command.</param>
    /// <param name="version">Version of the document's layout.</param>
    /// <param name="content">The content.</param>
    public static JsonObject Headed(string name, int version, JsonObject content)
    {
        ArgumentNullException.ThrowIfNull(content);
        var document = new JsonObject { ["document"] = name, ["version"] = version };
        foreach ((string key, JsonNode? value) in content)
            document[key] = value?.DeepClone();
        return document;
    }

    /// <summary>A remark, on stderr; left out with --quiet.</summary>
    /// <param name="line">The line.</param>
    public void Say(string line)
    {
        if (!Quiet)
            environment.Error.WriteLine(line);
    }

    /// <summary>A detail, on stderr, with --verbose only.</summary>
    /// <param name="line">The line.</param>
    public void Detail(string line)
    {
        if (Verbose)
            environment.Error.WriteLine(line);
    }

    /// <summary>Something the user should know, on stderr, always.</summary>
    /// <param name="sentence">The sentence.</param>
    public void Warn(string sentence) => Marked("warning: ", new Style(Spectre.Console.Color.Yellow), sentence);

    /// <summary>What went wrong, on stderr, always.</summary>
    /// <param name="sentence">The sentence.</param>
    public void Fail(string sentence) => Marked("error: ", new Style(Spectre.Console.Color.Red), sentence);

    private void Marked(string mark, Style style, string sentence)
    {
        // The word says what the colour says: colour is never the only signal.
        if (Color)
            environment.ErrorConsole.Write(new Text(mark, style));
        else
            environment.Error.Write(mark);
        environment.Error.WriteLine(sentence);
    }
}
