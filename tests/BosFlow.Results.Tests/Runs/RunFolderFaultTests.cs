using BosFlow.Displacement;
using BosFlow.Pipeline;
using BosFlow.Results.NetCdf;
using BosFlow.Results.Runs;
using BosFlow.TestKit;

namespace BosFlow.Results.Tests.Runs;

/// <summary>What a run's folder meets on a bad night.</summary>
public sealed class RunFolderFaultTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    private string Root => folder.PathOf("run");

    public void Dispose() => folder.Dispose();

    [Fact]
    public void FinishedFrames_FileCutOrFlippedAnywhere_IsFoundDamaged()
    {
        using RunFolder run = Open();
        run.WriteFrame(SampleRun.Frame(0), 0.1);
        string path = folder.PathOf("run/frames/000000.nc");
        byte[] good = File.ReadAllBytes(path);
        var random = new Random(5);
        int unnoticed = 0;
        for (int trial = 0; trial < 150; trial++)
        {
            byte[] bad = [.. good];
            if (trial % 3 == 0)
                bad = bad[..random.Next(good.Length)];
            else
                bad[random.Next(good.Length)] ^= (byte)(1 << random.Next(8));
            File.WriteAllBytes(path, bad);

            // A flip in bytes that mean nothing (the gaps of the format) may pass; then the frame must read as before.
            if (run.FinishedFrames(SampleRun.Grid).Count == 0)
                continue;
            unnoticed++;
            Assert.Equal(good.Length, bad.Length);
            Assert.Equal(SampleRun.Frame(0).Field.U.Select(BitConverter.SingleToInt32Bits), run.ReadFrame(0).Field.U.Select(BitConverter.SingleToInt32Bits));
        }

        Assert.InRange(unnoticed, 0, 75);
    }

    [Fact]
    public void FinishedFrames_EmptyFileOrGoodDigestWithAnotherGrid_IsMeasuredAgain()
    {
        using RunFolder run = Open();
        run.WriteFrame(SampleRun.Frame(0), 0.1);
        File.WriteAllBytes(folder.PathOf("run/frames/000001.nc"), []);
        NodeGrid half = SampleRun.Grid with { Columns = 1, Rows = 1 };
        float[] one = [1];
        FrameResult small = SampleRun.Frame(2) with
        {
            Field = new VectorField { Grid = half, U = one, V = one, SigmaU = one, SigmaV = one, Flags = [VectorFlags.None], Correlation = one, PeakRatio = one },
        };
        NetCdfFile.Write(folder.PathOf("run/frames/000002.nc"), FrameFile.ToContent(small, SampleRun.Scale, SampleRun.Identity().Sha256()));

        Assert.Equal([0], run.FinishedFrames(SampleRun.Grid));
        Assert.Contains("frame 2 is measured again", run.DamagedFrames[1], StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("\"lens_to_flow_metres\": 1.2", "\"lens_to_flow_metres\": 1.3")]
    [InlineData("00ff", "00fe")]
    public void Open_RunJsonChangedByHand_IsRefusedWithASentence(string words, string others)
    {
        Open().Dispose();
        string path = folder.PathOf("run/run.json");
        string text = File.ReadAllText(path);
        Assert.Contains(words, text, StringComparison.Ordinal);
        File.WriteAllText(path, text.Replace(words, others, StringComparison.Ordinal));

        string message = Assert.Throws<InputDataException>(() => Open()).Message;

        Assert.Contains("was changed by hand", message, StringComparison.Ordinal);
        Assert.Contains("--restart", message, StringComparison.Ordinal);
        Assert.False(File.Exists(folder.PathOf("run/run.lock")));
    }

    [Fact]
    public void Open_ShardsThatAllStartAtOnce_ShareOneDocument()
    {
        var documents = new System.Collections.Concurrent.ConcurrentBag<DateTimeOffset>();

        Parallel.For(1, 17, new ParallelOptions { MaxDegreeOfParallelism = 16 }, number =>
        {
            using RunFolder run = Open(RunPart.Of(new Shard(number, 16)));
            run.WriteFrame(SampleRun.Frame(number), 0.1);
            documents.Add(run.Document.StartedUtc);
        });

        Assert.Single(documents.Distinct());
        using RunFolder gathering = Open(RunPart.Gathering);
        Assert.Equal(Enumerable.Range(1, 16), gathering.FinishedFrames(SampleRun.Grid).Order());
        Assert.Empty(Directory.GetFiles(Root, "*.part", SearchOption.AllDirectories));
        Assert.Equal(16, Directory.GetFiles(folder.PathOf("run/shards"), "*-of-16.timing.csv").Length);
    }

    [Fact]
    public void Open_GatheringOfNothing_IsRefusedAndMakesNoFolder()
    {
        Assert.Contains("nothing to gather", Assert.Throws<InputDataException>(() => Open(RunPart.Gathering)).Message, StringComparison.Ordinal);

        Assert.False(Directory.Exists(Root));
    }

    [Fact]
    public void Open_WhatARunKilledInItsFirstMomentsLeft_Begins()
    {
        Directory.CreateDirectory(folder.PathOf("run/shards"));
        File.WriteAllText(folder.PathOf("run/run.json.node7-99.part"), "{ half");
        File.WriteAllText(folder.PathOf("run/log.txt"), "started");

        using RunFolder run = Open();

        Assert.Empty(run.FinishedFrames(SampleRun.Grid));
        Assert.False(File.Exists(folder.PathOf("run/run.json.node7-99.part")));
    }

    [Fact]
    public void Open_ShardBesideLeftoversOfAnotherMachine_LeavesThemToTheGathering()
    {
        Open().Dispose();
        string half = folder.PathOf("run/frames/000003.nc.node7-99.part");
        File.WriteAllText(half, "perhaps still being written");

        Open(RunPart.Of(new Shard(1, 2))).Dispose();
        Assert.True(File.Exists(half));
        Open(RunPart.Gathering).Dispose();

        Assert.False(File.Exists(half));
    }

    [Fact]
    public void WriteFrame_TimingCutWithinALineByAKill_BeginsANewLine()
    {
        using RunFolder run = Open();
        File.WriteAllText(folder.PathOf("run/timing.csv"), "frame,processing_s,cores\n0,0.2");

        run.WriteFrame(SampleRun.Frame(1), 0.5);

        Assert.Equal(["frame,processing_s,cores", "0,0.2", $"1,0.5,{Environment.ProcessorCount}"], File.ReadAllLines(folder.PathOf("run/timing.csv")));
    }

    [Fact]
    public void WriteSummary_Cancelled_LeavesTheRunIncomplete()
    {
        using RunFolder run = Open();
        using var cancel = new CancellationTokenSource();
        cancel.Cancel();

        Assert.ThrowsAny<OperationCanceledException>(() => run.WriteSummary(SampleRun.Summary(), cancel.Token));

        Assert.Equal("running", RunDocument.Read(folder.PathOf("run/run.json")).State);
    }

    private RunFolder Open(RunPart? part = null) =>
        RunFolder.Open(Root, SampleRun.Identity(), new RunOpening { Part = part ?? RunPart.Whole }, TimeProvider.System, CancellationToken.None);
}
