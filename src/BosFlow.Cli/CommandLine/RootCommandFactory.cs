using System.CommandLine;
using System.CommandLine.Help;
using BosFlow.Cli.Commands;

namespace BosFlow.Cli.CommandLine;

/// <summary>Puts the commands together.</summary>
internal static class RootCommandFactory
{
    private const int HelpWidth = 110;

    /// <summary>The root command with every command below it.</summary>
    /// <param name="environment">What the commands may touch of the outside world.</param>
    public static RootCommand Create(CommandEnvironment environment)
    {
        var root = new RootCommand("Background-oriented schlieren: from footage of a printed pattern to density-gradient maps with units.")
        {
            HelpName = "bosflow",
        };
        CommonOptions.AddTo(root);
        root.Add(NewCommand.Create(environment));
        root.Add(PlanCommand.Create(environment));
        root.Add(PrintCommand.Create(environment));
        root.Add(CalibrateCommand.Create(environment));
        root.Add(TriageCommand.Create(environment));
        root.Add(RunCommand.Create(environment));
        root.Add(RenderCommand.Create(environment));
        root.Add(SynthCommand.Create(environment));
        root.Add(ValidateCommand.Create(environment));
        root.Add(DemoCommand.Create(environment));
        root.Add(DoctorCommand.Create(environment));
        root.Add(CaseKeysCommand.Create(environment));
        foreach (Option option in root.Options)
        {
            if (option is HelpOption { Action: HelpAction help })
            {
                help.MaxWidth = HelpWidth;
                option.Action = new HelpWithExamples(help);
            }
            else if (option is VersionOption)
            {
                option.Action = new VersionLine();
            }
        }

        return root;
    }
}
