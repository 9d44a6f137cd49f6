using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;

namespace BosFlow.Cli.CommandLine;

/// <summary>The library's help, followed by the examples of the command.</summary>
/// <param name="help">The library's help.</param>
internal sealed class HelpWithExamples(HelpAction help) : SynchronousCommandLineAction
{
    /// <inheritdoc/>
    public override bool ClearsParseErrors => true;

    /// <inheritdoc/>
    public override int Invoke(ParseResult parseResult)
    {
        int code = help.Invoke(parseResult);
        TextWriter output = parseResult.InvocationConfiguration.Output;
        if (parseResult.CommandResult.Command is RootCommand)
        {
            output.WriteLine("Exit codes:");
            output.WriteLine("  0 done; 1 failed while working; 2 wrong use or bad input, nothing was written;");
            output.WriteLine("  3 done, but some frames could not be measured, or a verdict is negative; 130 interrupted, can go on.");
            output.WriteLine();
        }

        if (parseResult.CommandResult.Command is not ExampleCommand command)
            return code;
        if (command.Examples.Count > 0)
            output.WriteLine("Examples:");
        foreach ((string line, string meaning) in command.Examples)
        {
            output.WriteLine("  " + line);
            output.WriteLine("      " + meaning);
        }

        foreach (string remark in command.Remarks)
            output.WriteLine(remark);
        return code;
    }
}
