using System.Globalization;
using BosFlow.Cli.CommandLine;
using BosFlow.Pipeline;
using Spectre.Console;

namespace BosFlow.Cli.Running;

/// <summary>Shows on stderr how far a run is: one line that rewrites itself on a terminal, else a line now and then.</summary>
internal sealed class RunProgressDisplay : IProgress<RunProgress>, IDisposable
{
    private static readonly TimeSpan Refresh = TimeSpan.FromMilliseconds(200);

    // Where lines stay, as in the log of a batch job: one a minute, or one every tenth of the frames, but never a flood.
    private static readonly TimeSpan LongestSilence = TimeSpan.FromMinutes(1);
    private static readonly TimeSpan ShortestSilence = TimeSpan.FromSeconds(10);

    private readonly Lock gate = new();
    private readonly Talk talk;
    private readonly IAnsiConsole console;
    private readonly TimeProvider clock;
    private readonly string place;
    private readonly List<double> noiseFloors = [];
    private readonly HashSet<string> toldFailures = new(StringComparer.Ordinal);
    private FrameRate rate;
    private RunStep? step;
    private long lastTold;
    private int lastTenth;
    private int frameWarnings;
    private bool lineIsOpen;

    /// <summary>Starts with an empty line.</summary>
    /// <param name="talk">How to speak.</param>
    /// <param name="environment">Console and clock.</param>
    /// <param name="place">Place in a queue, such as "case 2 of 5"; null = the only one.</param>
    public RunProgressDisplay(Talk talk, CommandEnvironment environment, string? place = null)
    {
        this.talk = talk;
        console = environment.ErrorConsole;
        clock = environment.Clock;
        rate = new FrameRate(clock);
        this.place = place is null ? string.Empty : place + ": ";
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
            rate.Note(value.FramesDone);
            if (talk.LiveProgress)
            {
                if (newStep || value.FramesDone == value.FramesTotal || clock.GetElapsedTime(lastTold) >= Refresh)
                    Draw(value);
            }
            else if (value.FramesDone < value.FramesTotal && IsTimeForALine(value))
            {
                talk.Say(Line(value));
                lastTold = clock.GetTimestamp();
            }
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
            if (double.IsFinite(result.NoiseFloorU))
                noiseFloors.Add(Math.Max(result.NoiseFloorU, result.NoiseFloorV));
            // A night of failing frames must not bury everything else: each reason is told once, the rest is counted.
            if (result.Failure is { } reason && toldFailures.Add(FailureGroup.Key(reason)))
                Interject(() => talk.Warn(FormattableString.Invariant($"frame {result.Index} ({result.Source}) could not be measured: {reason}")));
            if (result.Rejection is { } why && toldFailures.Add(FailureGroup.Key(why)))
                Interject(() => talk.Warn(FormattableString.Invariant($"frame {result.Index} ({result.Source}) is left out: {why}")));
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
        rate = new FrameRate(clock);
        lastTold = clock.GetTimestamp();
        lastTenth = Tenth(value);
        if (talk.LiveProgress)
            return;
        talk.Say(place + value.Step switch
        {
            RunStep.Reference => "Making the reference picture.",
            RunStep.Frames when value.FramesDone == value.FramesTotal => $"All {value.FramesTotal} frames are measured already.",
            RunStep.Frames when value.FramesDone > 0 => $"Measuring {value.FramesTotal - value.FramesDone} frames; {value.FramesDone} of {value.FramesTotal} are there already.",
            RunStep.Frames => $"Measuring {value.FramesTotal} frames.",
            _ => "Writing summary, maps and report.",
        });
    }

    private bool IsTimeForALine(RunProgress value)
    {
        TimeSpan silence = clock.GetElapsedTime(lastTold);
        bool tenthIsFull = Tenth(value) > lastTenth && silence >= ShortestSilence;
        if (!tenthIsFull && silence < LongestSilence)
            return false;
        lastTenth = Tenth(value);
        return true;
    }

    private static int Tenth(RunProgress value) => value.FramesTotal == 0 ? 0 : (int)(10L * value.FramesDone / value.FramesTotal);

    private void Draw(RunProgress value)
    {
        string text = Line(value);
        int width = Math.Max(20, console.Profile.Width - 1);
        Clear();
        console.Write(new ControlCode(text.Length <= width ? text : text[..width]));
        lineIsOpen = true;
        lastTold = clock.GetTimestamp();
    }

    private string Line(RunProgress value) => place + value.Step switch
    {
        RunStep.Reference when value.FramesTotal > 1 => FormattableString.Invariant($"reference picture, frame {value.FramesDone} of {value.FramesTotal}{Pace(value)} ..."),
        RunStep.Reference => "reference picture ...",
        RunStep.Frames => FramesLine(value),
        _ => "summary, maps and report ...",
    };

    private string FramesLine(RunProgress value)
    {
        double floor = RunMedian.Of(noiseFloors);
        string noise = double.IsNaN(floor) ? string.Empty : string.Create(CultureInfo.InvariantCulture, $", noise floor {floor:0.000} px");
        string failed = value.FramesFailed > 0 ? $", {value.FramesFailed} not measurable" : string.Empty;
        string warnings = frameWarnings > 0 ? $", {frameWarnings} with remarks" : string.Empty;
        return $"frame {value.FramesDone} of {value.FramesTotal}{Pace(value)}{noise}{failed}{warnings}";
    }

    private string Pace(RunProgress value)
    {
        if (rate.PerSecond is not { } perSecond)
            return string.Empty;
        var left = TimeSpan.FromSeconds((value.FramesTotal - value.FramesDone) / perSecond);
        return string.Create(CultureInfo.InvariantCulture, $", {perSecond:0.0#} frames/s, {DurationText.Of(left)} left");
    }

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
