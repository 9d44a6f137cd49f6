using BosFlow.Cli.Forecasting;
using BosFlow.Pipeline;

namespace BosFlow.Cli.Tests.Running;

public sealed class StepTimesTests
{
    [Fact]
    public void Pace_SteadyFramesAfterASlowStart_IsTheirInterval()
    {
        var clock = new HandClock();
        var times = new StepTimes(clock);
        clock.Advance(5);
        times.Report(new RunProgress(RunStep.Frames, 0, 9, 0));
        clock.Advance(10);
        for (int frame = 1; frame <= 9; frame++)
        {
            times.Report(new RunProgress(RunStep.Frames, frame, 9, 0));
            clock.Advance(2);
        }

        (double seconds, double sigma) = times.Pace(threads: 1);

        Assert.Equal(5, times.ReferenceSeconds, 9);
        Assert.Equal(2, seconds, 9);
        Assert.Equal(0, sigma, 9);
    }

    private sealed class HandClock : TimeProvider
    {
        private long ticks;

        public override long TimestampFrequency => 1000;

        public override long GetTimestamp() => ticks;

        public void Advance(double seconds) => ticks += (long)(1000 * seconds);
    }
}
