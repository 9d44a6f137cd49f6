using System.CommandLine;

namespace BosFlow.Cli.Printing;

/// <summary>The options of print that check a printed board instead of drawing one.</summary>
internal sealed class BoardCheckOptions
{
    private readonly Option<string?> check = new("--check") { Description = "Instead of drawing: read a printed board back from this photo or scan; needs --board.", HelpName = "PHOTO" };
    private readonly Option<string?> board = new("--board") { Description = "With --check: the description that was written with the board.", HelpName = "FILE.json" };
    private readonly Option<double?> rulerX = new("--ruler-x-mm") { Description = "With --check: what a steel rule reads along the whole ruler that runs to the right.", HelpName = "MM" };
    private readonly Option<double?> rulerY = new("--ruler-y-mm") { Description = "With --check: what a steel rule reads along the whole ruler that runs down.", HelpName = "MM" };
    private readonly Option<double?> scanDpi = new("--scan-dpi") { Description = "With --check: the picture is a flat-bed scan of this resolution.", HelpName = "DPI" };
    private readonly Option<bool> linear = new("--linear") { Description = "With --check: grey levels are in proportion to the light (raw development); without it, by the sRGB curve of usual pictures." };

    /// <summary>Adds the options to the command.</summary>
    public void AddTo(Command command)
    {
        foreach (Option option in new Option[] { check, board, rulerX, rulerY, scanDpi, linear })
            command.Add(option);
    }

    /// <summary>What was typed; null where no check is asked for.</summary>
    /// <param name="parsed">The command line.</param>
    /// <param name="outputs">Files of --output.</param>
    /// <param name="force">Whether --force was given.</param>
    /// <exception cref="ConfigurationException">Options of a check stand there without --check.</exception>
    public BoardCheckRequest? Read(ParseResult parsed, IReadOnlyList<string> outputs, bool force)
    {
        if (parsed.GetValue(check) is not { } photo)
        {
            Option? lonely = new Option[] { board, rulerX, rulerY, scanDpi, linear }.FirstOrDefault(option => parsed.GetResult(option) is { Implicit: false });
            return lonely is null ? null : throw new ConfigurationException([$"{lonely.Name} belongs to a check: give the photo too, --check PHOTO."]);
        }

        return new BoardCheckRequest
        {
            Photo = photo,
            Description = parsed.GetValue(board),
            RulerXMillimetres = parsed.GetValue(rulerX),
            RulerYMillimetres = parsed.GetValue(rulerY),
            ScanDpi = parsed.GetValue(scanDpi),
            IsLinear = parsed.GetValue(linear),
            Outputs = outputs,
            Force = force,
        };
    }
}
