using System.CommandLine;
using System.Text.Json.Nodes;
using BosFlow.Cli.CommandLine;
using BosFlow.Cli.Doctor;
using BosFlow.Media;

namespace BosFlow.Cli.Commands;

/// <summary>Says what the machine has and lacks.</summary>
public static class DoctorCommand
{
    private const int DocumentVersion = 1;
    private const int NameWidth = 20;

    /// <summary>Creates the command.</summary>
    /// <param name="environment">What the command may touch of the outside world.</param>
    public static Command Create(CommandEnvironment environment)
    {
        var command = new ExampleCommand("doctor", "Say what this machine has and lacks, with the command that mends it.")
        {
            Examples = [("bosflow doctor", "one line each: ok, or what is better or needed; exit code 1 when something needed is missing")],
        };
        command.SetAction(parsed =>
        {
            var checks = new MachineChecks(NativeLibraries.Check(), environment.WorkingDirectory);
            return Tell(checks.All(), Talk.Of(parsed, environment));
        });
        return command;
    }

    /// <summary>Tells what was found.</summary>
    /// <param name="checks">The checks.</param>
    /// <param name="talk">How to speak.</param>
    /// <returns>The exit code.</returns>
    internal static int Tell(IReadOnlyList<MachineCheck> checks, Talk talk)
    {
        foreach (MachineCheck check in checks)
        {
            string remedy = check.Remedy is null ? string.Empty : $"  ->  {check.Remedy}";
            talk.Result($"{Word(check.State),-8}{check.Name.PadRight(NameWidth)}{check.Finding}{remedy}");
        }

        int code = checks.Any(check => check.State == CheckState.Missing) ? ExitCode.Failed : ExitCode.Done;
        talk.Document("doctor", DocumentVersion, new JsonObject
        {
            ["exit_code"] = code,
            ["checks"] = new JsonArray([.. checks.Select(check => new JsonObject
            {
                ["name"] = check.Name,
                ["state"] = Word(check.State),
                ["finding"] = check.Finding,
                ["remedy"] = check.Remedy,
            })]),
        });
        return code;
    }

    private static string Word(CheckState state) => state switch
    {
        CheckState.Good => "ok",
        CheckState.CouldBeBetter => "better",
        _ => "missing",
    };
}
