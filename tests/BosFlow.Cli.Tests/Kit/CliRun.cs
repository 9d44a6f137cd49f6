using BosFlow.TestKit;
using Spectre.Console;

namespace BosFlow.Cli.Tests.Kit;

/// <summary>Runs the command line: in this process, or as the built program.</summary>
internal static class CliRun
{
    private static readonly string Program = Path.Combine(AppContext.BaseDirectory, "BosFlow.Cli.dll");

    /// <summary>Runs a command in this process.</summary>
    /// <param name="folder">Working directory of the command.</param>
    /// <param name="args">The command line.</param>
    public static Task<ProcessResult> InsideAsync(string folder, params string[] args) => InsideAsync(folder, CancellationToken.None, args);

    /// <summary>Runs a command in this process.</summary>
    /// <param name="folder">Working directory of the command.</param>
    /// <param name="cancellationToken">Interrupts it as a signal would.</param>
    /// <param name="args">The command line.</param>
    public static async Task<ProcessResult> InsideAsync(string folder, CancellationToken cancellationToken, params string[] args)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        var environment = new CommandEnvironment(output, TextWriter.Synchronized(error), Terminal(error), folder);
        int code = await Cli.Program.RunAsync(args, environment, cancellationToken);
        return new ProcessResult(code, output.ToString(), error.ToString());
    }

    /// <summary>Runs the built program.</summary>
    /// <param name="folder">Working directory of the program.</param>
    /// <param name="args">The command line.</param>
    public static Task<ProcessResult> ProcessAsync(string folder, params string[] args) =>
        ProcessRunner.RunAsync("dotnet", [Program, .. args], folder, Environment);

    /// <summary>The arguments with which dotnet starts the built program.</summary>
    /// <param name="args">The command line.</param>
    public static string[] Arguments(params string[] args) => [Program, .. args];

    private static Dictionary<string, string?> Environment { get; } = new() { ["NO_COLOR"] = null, ["DOTNET_TieredPGO"] = "0" };

    private static IAnsiConsole Terminal(TextWriter error) => AnsiConsole.Create(new AnsiConsoleSettings
    {
        Ansi = AnsiSupport.No,
        ColorSystem = ColorSystemSupport.NoColors,
        Interactive = InteractionSupport.No,
        Out = new AnsiConsoleOutput(error),
    });
}
