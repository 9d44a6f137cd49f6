using System.CommandLine;
using BosFlow.Cli.CaseFile;
using BosFlow.Cli.CommandLine;
using BosFlow.Cli.Scenes;

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
        var recipe = new Option<bool>("--recipe") { Description = "Print the table of all keys of a scene recipe for bosflow synth (docs/recipe.md)." };
        var command = new ExampleCommand("case-keys", "Print every key of the case file with its default, range and meaning.")
        {
            Examples =
            [
                ("bosflow case-keys", "reads like the documentation of the case file"),
                ("bosflow case-keys --recipe", "what a recipe of a synthetic scene may hold"),
                ("bosflow case-keys --schema > case-file.schema.json", "the schema with which an editor completes and checks case files"),
            ],
        };
        command.Add(schema);
        command.Add(markdown);
        command.Add(recipe);
        command.Validators.Add(result =>
        {
            if (new[] { schema, markdown, recipe }.Count(option => result.GetValue(option)) > 1)
                result.AddError("--schema, --markdown and --recipe exclude each other; give one of them.");
        });
        command.SetAction(parsed =>
        {
            Talk talk = Talk.Of(parsed, environment);
            bool asSchema = parsed.GetValue(schema) || talk.Json;
            bool ofRecipe = parsed.GetValue(recipe);
            environment.Output.Write(ofRecipe ? SceneKeyTable.Write() : asSchema ? CaseSchema.Write() : CaseKeyTable.Write());
            return ExitCode.Done;
        });
        return command;
    }
}
