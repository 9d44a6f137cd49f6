using System.CommandLine;
using BosFlow.Cli.Calibrating;
using BosFlow.Cli.CommandLine;

namespace BosFlow.Cli.Commands;

/// <summary>Finds the lens of a camera from pictures of a plane target.</summary>
public static class CalibrateCommand
{
    /// <summary>Creates the command.</summary>
    /// <param name="environment">What the command may touch of the outside world.</param>
    public static Command Create(CommandEnvironment environment)
    {
        var options = new CalibrationOptions();
        var command = new ExampleCommand("calibrate", "Find the lens of a camera from pictures of a checkerboard, a grid of discs or the printed background.")
        {
            Examples =
            [
                ("bosflow calibrate --checkerboard 9x6 --square-mm 20 pictures/*.png --output lens.toml", "9 x 6 inner corners, squares of 20 mm"),
                ("bosflow calibrate --circles 7x5 --spacing-mm 15 pictures/*.jpg --model fisheye", "discs 15 mm apart, through a wide lens"),
                ("bosflow calibrate --board board.json pictures/*.png", "the background from bosflow print, by its fiducials"),
                ("bosflow calibrate --checkerboard 9x6 --square-mm 20 --video clip.mp4 --json", "frames of a video, for scripts"),
            ],
            Remarks =
            [
                "Same focus, zoom, size as the footage, no stabilisation; 12 to 20 pictures, tilted by 20 to 45 degrees, all corners.",
                "Exit code 3 and no lens file where the lens cannot be relied on; the reasons are told.",
            ],
        };
        options.AddTo(command);
        command.SetAction((parsed, cancellationToken) =>
            Task.Run(() => CalibrationAction.Run(options.Read(parsed, environment), Talk.Of(parsed, environment), environment, cancellationToken), CancellationToken.None));
        return command;
    }
}
