using System.CommandLine;
using System.CommandLine.Invocation;
using System.Reflection;

namespace BosFlow.Cli.CommandLine;

/// <summary>Prints the program's version.</summary>
internal sealed class VersionLine : SynchronousCommandLineAction
{
    private const int ShortHash = 10;

    /// <summary>Version number, with the commit it was built from where that is known.</summary>
    public static string Text
    {
        get
        {
            string full = typeof(VersionLine).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion ?? "unknown";
            string[] parts = full.Split('+', 2);
            return parts.Length == 1 || parts[1].Length < ShortHash ? parts[0] : $"{parts[0]} ({parts[1][..ShortHash]})";
        }
    }

    /// <inheritdoc/>
    public override int Invoke(ParseResult parseResult)
    {
        parseResult.InvocationConfiguration.Output.WriteLine("bosflow " + Text);
        return ExitCode.Done;
    }
}
