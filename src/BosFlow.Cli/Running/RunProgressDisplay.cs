using System.Globalization;
using BosFlow.Cli.CommandLine;
using BosFlow.Pipeline;
using Spectre.Console;

namespace BosFlow.Cli.Running;

/// <summary>Shows on stderr how far a run is: one line that rewrites itself on a terminal, else one line a stage.</summary>
internal sealed class RunProgressDisplay : IProgress<RunProgress>, IDisposable
{
    private static readonly TimeSpan Refresh = TimeSpan.FromMilliseconds(200);

    private readonly Lock gate = new();
    private readonly Talk talk;
    private readonly IAnsiConsole console;
    private readonly TimeProvider clock;
    private RunStep? step;
    private long stepStart;
    private long lastDrawn;
    private int doneAtStart;
    private string noiseFloor = string.Empty;
    private int frameWarnings;
    private bool lineIsOpen;

    /// <summary>Starts with an empty line.</summary>
    /// <param name="talk">How to speak.</param>
    /// <param name="environment">Console and clock.</param>
    public RunProgressDisplay(Talk talk, CommandEnvironment environment)
    {
        this.talk = talk;
        console = environment.ErrorConsole;
        clock = environment.Clock;
    }

    /// <inheritdoc/>
    public void Report(RunProgress value)
    {
        ArgumentNullException.ThrowIfNull(value);
        lock (gate)
        {
            bool newStep = step != value.Step;
            if (newStep)
                Begin(value);
            if (talk.LiveProgress && (newStep || value.FramesDone == value.FramesTotal || clock.GetElapsedTime(lastDrawn) >= Refresh))
                Draw(value);
        }
    }

    /// <summary>Takes note of a frame's noise floor and warnings.</summary>
    /// <param name="result">The frame.</param>
    public void Frame(FrameResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        lock (gate)
        {
            frameWarnings += result.Warnings.Count > 0 ? 1 : 0;
            if (result.Failure is not null)
                Interject(() => talk.Warn(FormattableString.Invariant($"frame {result.Index} ({result.Source}) could not be measured: {result.Failure}")));
            else if (double.IsFinite(result.NoiseFloorU))
                noiseFloor = string.Create(CultureInfo.InvariantCulture, $", noise floor {Math.Max(result.NoiseFloorU, result.NoiseFloorV):0.000} px");
        }
    }

    /// <summary>Shows a warning above the line.</summary>
    /// <param name="sentence">The warning.</param>
    public void Warn(string sentence)
    {
        lock (gate)
            Interject(() => talk.Warn(sentence));
    }

    /// <summary>Removes the line: what follows stands in its place.</summary>
    public void End()
    {
        lock (gate)
            Clear();
    }

    /// <inheritdoc/>
    public void Dispose() => End();

    private void Begin(RunProgress value)
    {
        step = value.Step;
        stepStart = clock.GetTimestamp();
        doneAtStart = value.FramesDone;
        if (talk.LiveProgress)
            return;
        talk.Say(value.Step switch
        {
            RunStep.Reference => "Making the reference picture.",
            RunStep.Frames when value.FramesDone == value.FramesTotal => $"All {value.FramesTotal} frames are measured already.",
            RunStep.Frames when value.FramesDone > 0 => $"Measuring {value.FramesTotal - value.FramesDone} frames; {value.FramesDone} of {value.FramesTotal} are there already.",
            RunStep.Frames => $"Measuring {value.FramesTotal} frames.",
            _ => "Writing summary, maps and report.",
        });
    }

    private void Draw(RunProgress value)
    {
        string text = value.Step switch
        {
            RunStep.Reference when value.FramesTotal > 1 => FormattableString.Invariant($"reference picture, frame {value.FramesDone} of {value.FramesTotal} ..."),
            RunStep.Reference => "reference picture ...",
            RunStep.Frames => FramesLine(value),
            _ => "summary, maps and report ...",
        };
        int width = Math.Max(20, console.Profile.Width - 1);
        Clear();
        console.Write(new ControlCode(text.Length <= width ? text : text[..width]));
        lineIsOpen = true;
        lastDrawn = clock.GetTimestamp();
    }

    private string FramesLine(RunProgress value)
    {
        double seconds = clock.GetElapsedTime(stepStart).TotalSeconds;
        int done = value.FramesDone - doneAtStart;
        string pace = string.Empty;
        if (done > 0 && seconds > 0)
        {
            double rate = done / seconds;
            var left = TimeSpan.FromSeconds((value.FramesTotal - value.FramesDone) / rate);
            pace = string.Create(CultureInfo.InvariantCulture, $", {rate:0.0#} frames/s, {Duration(left)} left");
        }

        string failed = value.FramesFailed > 0 ? $", {value.FramesFailed} not measurable" : string.Empty;
        string warnings = frameWarnings > 0 ? $", {frameWarnings} with remarks" : string.Empty;
        return $"frame {value.FramesDone} of {value.FramesTotal}{pace}{noiseFloor}{failed}{warnings}";
    }

    private static string Duration(TimeSpan time) => time.TotalHours >= 1
        ? string.Create(CultureInfo.InvariantCulture, $"{(int)time.TotalHours} h {time.Minutes} min")
        : time.TotalMinutes >= 1
            ? string.Create(CultureInfo.InvariantCulture, $"{time.Minutes} min {time.Seconds} s")
            : string.Create(CultureInfo.InvariantCulture, $"{Math.Ceiling(time.TotalSeconds):0} s");

    private void Interject(Action speak)
    {
        Clear();
        speak();
    }

    private void Clear()
    {
        if (!lineIsOpen)
            return;
        // Back to the first column, then erase to the end of the line.
        console.Write(new ControlCode("\r\u001b[K"));
        lineIsOpen = false;
    }
}
