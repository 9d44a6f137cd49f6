using System.Diagnostics;
using System.Text.Json;
using BosFlow.Pipeline;
using BosFlow.Results.Locking;
using BosFlow.Results.Runs;
using BosFlow.TestKit;

namespace BosFlow.Results.Tests.Runs;

public sealed class RunLocksTests : IDisposable
{
    // Nothing beats and nothing is waited for: who is silent is so at the first look.
    private static readonly LockRhythm AtOnce = new(TimeSpan.FromHours(1), TimeSpan.Zero, TimeSpan.FromMilliseconds(1));

    private static readonly LockRhythm Patient = new(TimeSpan.FromHours(1), TimeSpan.FromHours(1), TimeSpan.FromMilliseconds(1));

    private readonly TemporaryFolder folder = new();
    private readonly List<string> remarks = [];

    public void Dispose() => folder.Dispose();

    [Theory]
    [InlineData(null, null)]
    [InlineData(null, "1/3")]
    [InlineData("1/3", null)]
    [InlineData("1/3", "1/3")]
    [InlineData("1/3", "2/4")]
    public void Take_WhatExcludesEachOther_IsRefusedWithWhoAndWhatToDo(string? first, string? second)
    {
        using LockFile held = Take(first);

        string message = Assert.Throws<InputDataException>(() => Take(second)).Message;

        Assert.Contains($"process {Environment.ProcessId} on this machine, since ", message, StringComparison.Ordinal);
        Assert.Contains("wait until that has ended, or stop it", message, StringComparison.Ordinal);
        Assert.Single(Locks());
    }

    [Fact]
    public void Take_OtherShardsOfTheSameSplit_WorkSideBySide()
    {
        using LockFile one = Take("1/3"), two = Take("2/3"), three = Take("3/3");

        Assert.Equal(3, Locks().Length);
    }

    [Theory]
    [InlineData(null)]
    [InlineData("2/3")]
    public void Dispose_Held_LeavesNothingAndTheNextMayCome(string? shard)
    {
        Take(shard).Dispose();
        using LockFile whole = Take(null);

        Assert.Single(Locks());
        Assert.Empty(remarks);
    }

    [Theory]
    [InlineData(null, null)]
    [InlineData("2/3", "2/3")]
    [InlineData("2/3", null)]
    [InlineData(null, "2/3")]
    public void Take_LockOfAProcessThatHasEnded_IsRemovedWithAWarning(string? left, string? next)
    {
        using (var ended = Process.Start("true"))
        {
            ended.WaitForExit();
            Leave(left, holder => holder with { Process = ended.Id });
        }

        using LockFile own = Take(next, Patient);

        Assert.Contains("was left over", Assert.Single(remarks), StringComparison.Ordinal);
        Assert.Single(Locks());
    }

    [Fact]
    public void Take_NumberOfTheProcessGivenToALaterOne_IsLeftOver()
    {
        Leave(null, holder => holder with { ProcessStart = "1" });

        using LockFile own = Take(null, Patient);

        Assert.Contains("was left over", Assert.Single(remarks), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("another machine")]
    [InlineData("this machine, started anew")]
    public void Take_SilentLockOfAnotherMachine_IsTakenAfterTheSilence(string which)
    {
        Leave("1/2", holder => which == "another machine" ? holder with { Host = "node7" } : holder with { Machine = "an earlier start" });
        Leave("2/2", holder => holder with { Host = "node8" });

        using LockFile own = Take(null, AtOnce);

        Assert.Equal(3, remarks.Count);
        Assert.Contains("looking for up to 0 s", remarks[0], StringComparison.Ordinal);
        Assert.All(remarks.Skip(1), remark => Assert.Contains("was left over", remark, StringComparison.Ordinal));
        Assert.Single(Locks());
    }

    [Fact]
    public async Task Take_LockOfAnotherMachineThatBeats_IsRefused()
    {
        string path = Leave(null, holder => holder with { Host = "node7" });
        using var stop = new CancellationTokenSource();
        Task beating = Task.Run(async () =>
        {
            for (int count = 1; !stop.IsCancellationRequested; count++)
            {
                await File.AppendAllTextAsync(path, $"{count}\n");
                await Task.Delay(1);
            }
        });

        string message = Assert.Throws<InputDataException>(() => Take(null, Patient)).Message;
        await stop.CancelAsync();
        await beating;

        Assert.Contains($"on node7, since ", message, StringComparison.Ordinal);
    }

    [Fact]
    public void Take_CancelledWhileItLooks_Stops()
    {
        Leave(null, holder => holder with { Host = "node7" });
        using var cancel = new CancellationTokenSource();
        var locks = new RunLocks(new RunLayout(folder.Root), Patient, TimeProvider.System, _ => cancel.Cancel());

        Assert.Throws<OperationCanceledException>(() => locks.Take("the whole run", null, cancel.Token));
    }

    [Theory]
    [InlineData("")]
    [InlineData("{\"Work\":")]
    [InlineData("null\n")]
    public void Take_FileThatSaysNothing_IsLookedAtAndThenTaken(string text)
    {
        File.WriteAllText(folder.PathOf("run.lock"), text);

        using LockFile own = Take(null, AtOnce);

        Assert.Contains("an unknown process", remarks[0], StringComparison.Ordinal);
    }

    [Fact]
    public void Take_ManyAtTheSameMomentOverALockLeftOver_GivesItToExactlyOne()
    {
        for (int round = 0; round < 20; round++)
        {
            Leave(null, holder => holder with { ProcessStart = "1" });
            var held = new System.Collections.Concurrent.ConcurrentBag<LockFile>();
            Parallel.For(0, 8, _ =>
            {
                try
                {
                    held.Add(new RunLocks(new RunLayout(folder.Root), Patient, TimeProvider.System, _ => { }).Take("the whole run", null, CancellationToken.None));
                }
                catch (InputDataException)
                {
                    // Refused, as all but one must be.
                }
            });

            Assert.Single(held).Dispose();
        }
    }

    [Fact]
    public void Take_RemovalThatWasKilledHalfWay_IsFinished()
    {
        string left = Leave(null, holder => holder with { ProcessStart = "1" });
        File.Copy(left, left + ".removal");

        using LockFile own = Take(null, AtOnce);

        Assert.Single(Locks());
    }

    [Fact]
    public void Lost_LockThatSomebodyElseTook_IsCancelledAtTheNextBeatAndItsFileStays()
    {
        var rhythm = new LockRhythm(TimeSpan.FromMilliseconds(5), TimeSpan.Zero, TimeSpan.Zero);
        LockFile own = Take(null, rhythm);
        string path = folder.PathOf("run.lock");
        string other = JsonSerializer.Serialize(LockHolder.ThisProcess("another run", TimeProvider.System) with { Host = "node7" }) + "\n";
        File.Delete(path);
        File.WriteAllText(path, other);

        Assert.True(own.Lost.WaitHandle.WaitOne(TimeSpan.FromMinutes(1)));
        own.Dispose();

        Assert.Equal(other, File.ReadAllText(path));
    }

    [Fact]
    public void Beat_WhileItIsHeld_MovesTheCounterAndNothingElse()
    {
        var rhythm = new LockRhythm(TimeSpan.FromMilliseconds(5), TimeSpan.Zero, TimeSpan.Zero);
        using LockFile own = Take(null, rhythm);
        string[] Lines() => File.ReadAllText(folder.PathOf("run.lock")).Split('\n');
        string[] first = Lines();

        Assert.True(SpinWait.SpinUntil(() => Lines()[1] != first[1], TimeSpan.FromMinutes(1)));

        Assert.Equal(first[0], Lines()[0]);
        Assert.Equal(first.Length, Lines().Length);
        Assert.False(own.Lost.IsCancellationRequested);
    }

    private string[] Locks() => Directory.GetFiles(folder.Root, "*", SearchOption.AllDirectories);

    private string Leave(string? shard, Func<LockHolder, LockHolder> change)
    {
        string path = folder.PathOf(shard is null ? "run.lock" : $"shards/{shard.Replace("/", "-of-", StringComparison.Ordinal)}.lock");
        File.WriteAllText(path, JsonSerializer.Serialize(change(LockHolder.ThisProcess("the whole run", TimeProvider.System))) + "\n000000000042\n");
        return path;
    }

    private LockFile Take(string? shard, LockRhythm? rhythm = null)
    {
        Directory.CreateDirectory(folder.PathOf("shards"));
        Shard? part = shard?.Split('/').Select(int.Parse).ToArray() is [int number, int count] ? new Shard(number, count) : null;
        return new RunLocks(new RunLayout(folder.Root), rhythm ?? AtOnce, TimeProvider.System, remarks.Add).Take(part?.ToString() ?? "the whole run", part, CancellationToken.None);
    }
}
