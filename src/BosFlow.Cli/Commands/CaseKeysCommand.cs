using System.CommandLine;
using BosFlow.Cli.CaseFile;
using BosFlow.Cli.CommandLine;

namespace BosFlow.Cli.Commands;

/// <summary>Prints what a case file may hold.</summary>
public static class CaseKeysCommand
{
    /// <summary>Creates the command.</summary>
    /// <param name="environment">What the command may touch of the outside world.</param>
    public static Command Create(CommandEnvironment environment)
    {
        var schema = new Option<bool>("--schema") { Description = "Print the JSON Schema of the case file, for editors (docs/case-file.schema.json)." };
        var markdown = new Option<bool>("--markdown") { Description = "Print the table of all keys (docs/case-file.md); this is the default." };
        var command = new ExampleCommand("case-keys", "Print every key of the case file with its default, range and meaning.")
        {
            Examples =
            [
                ("bosflow case-keys", "reads like the documentation of the case file"),
                ("bosflow case-keys --schema > case-file.schema.json", "the schema with which an editor completes and checks case files"),
            ],
        };
        command.Add(schema);
        command.Add(markdown);
        command.Validators.Add(result =>
        {
            if (result.GetValue(schema) && result.GetValue(markdown))
                result.AddError("--schema and --markdown exclude each other.");
        });
        command.SetAction(parsed =>
        {
            Talk talk = Talk.Of(parsed, environment);
            bool asSchema = parsed.GetValue(schema) || talk.Json;
            environment.Output.Write(asSchema ? CaseSchema.Write() : CaseKeyTable.Write());
            return ExitCode.Done;
        });
        return command;
    }
}
