using BosFlow.Density;
using BosFlow.Displacement;
using BosFlow.Footage;
using BosFlow.Optics;
using BosFlow.Pipeline;
using BosFlow.Results.NetCdf;
using BosFlow.Results.Runs;
using BosFlow.TestKit;

namespace BosFlow.Results.Tests.Runs;

public sealed class RunFolderTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    private string Root => folder.PathOf("run");

    public void Dispose() => folder.Dispose();

    [Fact]
    public void ReadFrame_WhatWasWritten_IsTheSameBitForBit()
    {
        using RunFolder run = Open();
        FrameResult result = SampleRun.Frame(1);

        run.WriteFrame(result, 0.25);

        FrameResult read = run.ReadFrame(1);
        Assert.Equal(result with { Field = read.Field, Warnings = read.Warnings }, read);
        Assert.Equal(result.Warnings, read.Warnings);
        Assert.Equal(result.Field.Grid, read.Field.Grid);
        Assert.Equal(result.Field.Flags, read.Field.Flags);
        foreach (Func<VectorField, float[]> part in new Func<VectorField, float[]>[] { f => f.U, f => f.V, f => f.SigmaU, f => f.SigmaV, f => f.Correlation, f => f.PeakRatio, f => f.WindowSide!, f => f.ShapeOrder! })
            Assert.Equal(part(result.Field).Select(BitConverter.SingleToInt32Bits), part(read.Field).Select(BitConverter.SingleToInt32Bits));
    }

    [Fact]
    public void ReadFrame_FailedFrame_KeepsItsReason()
    {
        using RunFolder run = Open();

        run.WriteFrame(SampleRun.Frame(0, "The frame is black."), 0.1);

        Assert.Equal("The frame is black.", run.ReadFrame(0).Failure);
        Assert.True(double.IsNaN(run.ReadFrame(0).NoiseFloorV));
        Assert.Empty(run.ReadFrame(0).Warnings);
    }

    [Fact]
    public void WriteFrame_InTwoFoldersAtDifferentSpeed_GivesSameBytes()
    {
        using RunFolder one = Open();
        using RunFolder other = RunFolder.Open(folder.PathOf("other"), SampleRun.Identity(), new RunOpening(), TimeProvider.System, CancellationToken.None);

        one.WriteFrame(SampleRun.Frame(3), 0.1);
        other.WriteFrame(SampleRun.Frame(3), 99);

        Assert.Equal(File.ReadAllBytes(folder.PathOf("run/frames/000003.nc")), File.ReadAllBytes(folder.PathOf("other/frames/000003.nc")));
    }

    [Fact]
    public void FinishedFrames_AfterReopening_AreThoseWritten()
    {
        using RunFolder run = Open();
        Parallel.For(0, 8, i => run.WriteFrame(SampleRun.Frame(i), 0.1));

        run.Dispose();
        using RunFolder again = Open();

        Assert.Equal(Enumerable.Range(0, 8), again.FinishedFrames(SampleRun.Grid).Order());
        Assert.Empty(again.DamagedFrames);
        Assert.Equal(9, File.ReadAllLines(folder.PathOf("run/timing.csv")).Length);
    }

    [Fact]
    public void FinishedFrames_DamagedForeignAndHalfWrittenFiles_AreNotAmongThem()
    {
        using RunFolder run = Open();
        for (int i = 0; i < 4; i++)
            run.WriteFrame(SampleRun.Frame(i), 0.1);
        byte[] bytes = File.ReadAllBytes(folder.PathOf("run/frames/000001.nc"));
        bytes[bytes.Length / 2] ^= 0xff;
        File.WriteAllBytes(folder.PathOf("run/frames/000001.nc"), bytes);
        File.Copy(folder.PathOf("run/frames/000000.nc"), folder.PathOf("run/frames/000002.nc"), overwrite: true);
        NetCdfFile.Write(folder.PathOf("run/frames/000003.nc"), FrameFile.ToContent(SampleRun.Frame(3), SampleRun.Scale, "another run"));
        File.WriteAllText(folder.PathOf("run/frames/000009.nc.somewhere-1.part"), "half");

        Assert.Equal([0], run.FinishedFrames(SampleRun.Grid));
        Assert.Equal(3, run.DamagedFrames.Count);
        Assert.Contains("Frame 1 is measured again", run.DamagedFrames[0], StringComparison.Ordinal);
    }

    [Fact]
    public void Open_ChangedCase_NamesTheKeyTheValuesAndWhatToDo()
    {
        Open().Dispose();

        InputDataException e = Assert.Throws<InputDataException>(() => Open(SampleRun.Identity(SampleRun.Case(lensToFlowMetres: 1.3))));

        Assert.Contains("rig.lens_to_flow_metres was 1.2 and is 1.3", e.Message, StringComparison.Ordinal);
        Assert.Contains("--restart", e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Open_SameCaseWithEverySettingOfGasAndFlow_GoesOn()
    {
        // Written to run.json and read back, the settings must be the same ones.
        using (RunFolder first = Open(SampleRun.Identity(FullGasAndFlow())))
            first.WriteFrame(SampleRun.Frame(0), 0.1);

        using RunFolder again = Open(SampleRun.Identity(FullGasAndFlow()));
        Assert.Equal([0], again.FinishedFrames(SampleRun.Grid));
    }

    [Fact]
    public void DifferencesFrom_ChangedGasAndFlow_NamesTheKeys()
    {
        ExperimentCase first = FullGasAndFlow();
        ExperimentCase changed = first with
        {
            Rig = first.Rig! with { LensToFlowSigmaMetres = 0.004 },
            Gas = first.Gas with { Composition = [new("argon", 1)], RelativeHumidity = 0.25 },
            Flow = first.Flow with { Axis = null, AmbientEdges = PictureEdge.Left },
        };

        IReadOnlyList<string> differences = SampleRun.Identity(changed).DifferencesFrom(SampleRun.Identity(first));

        Assert.Contains("rig.lens_to_flow_sigma_metres was 0.003 and is 0.004", differences);
        Assert.Contains("gas.relative_humidity was 0.5 and is 0.25", differences);
        Assert.Contains("flow.axis.y2 was 402.5 and is not set", differences);
        Assert.Contains("flow.ambient_edges was \"left, top\" and is \"left\"", differences);
        Assert.Contains(differences, sentence => sentence.StartsWith("gas.composition was [", StringComparison.Ordinal));
    }

    private static ExperimentCase FullGasAndFlow() => SampleRun.Case() with
    {
        Rig = SampleRun.Case().Rig! with { LensToFlowSigmaMetres = 0.003, BackgroundScaleRelativeSigma = 0.01 },
        Gas = new GasSettings { Composition = [new("carbon dioxide", 0.25), new("nitrogen", 0.75)], AmbientName = "air", RelativeHumidity = 0.5, EquivalenceRatio = 0.3 },
        Flow = new FlowSettings
        {
            Shape = FlowShape.Axisymmetric,
            Axis = new AxisLine(100.5, 400, 900, 402.5),
            AmbientEdges = PictureEdge.Left | PictureEdge.Top,
            AmbientRegions = [new PixelPolygon([(0, 0), (100, 0), (100, 50.25)])],
            FlowPressurePascal = 99000,
            Temperature = TemperatureModel.None,
        },
    };

    [Fact]
    public void Open_ChangedInput_NamesTheFile()
    {
        Open().Dispose();

        InputDataException e = Assert.Throws<InputDataException>(() => Open(SampleRun.Identity(hash: "abcd")));

        Assert.Contains("the content of the footage file frame-000.png has changed", e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Open_OtherAngleOfTheKnifeEdge_GoesOn()
    {
        using (RunFolder first = Open())
            first.WriteFrame(SampleRun.Frame(0), 0.1);

        using RunFolder again = Open(SampleRun.Identity(SampleRun.Case() with { KnifeEdgeDegrees = 75 }));
        Assert.Equal([0], again.FinishedFrames(SampleRun.Grid));
    }

    [Fact]
    public void Open_FolderOfSomethingElse_IsRefusedAndUntouched()
    {
        Directory.CreateDirectory(Root);
        File.WriteAllText(folder.PathOf("run/holiday.txt"), "sun");

        foreach (bool restart in new[] { false, true })
            Assert.Contains("holiday.txt", Assert.Throws<InputDataException>(() => Open(restart: restart)).Message, StringComparison.Ordinal);

        Assert.Equal(["holiday.txt"], Directory.GetFileSystemEntries(Root).Select(Path.GetFileName));
    }

    [Fact]
    public void Open_FolderWithALogOnly_IsFree()
    {
        Directory.CreateDirectory(Root);
        File.WriteAllText(folder.PathOf("run/log.txt"), "started");

        using RunFolder run = Open();
        Assert.Empty(run.FinishedFrames(SampleRun.Grid));
    }

    [Fact]
    public void Open_Restart_DeletesOldResultsAndNothingElse()
    {
        using (RunFolder first = Open())
            first.WriteFrame(SampleRun.Frame(0), 0.1);
        File.WriteAllText(folder.PathOf("run/notes.txt"), "mine");

        using RunFolder run = Open(SampleRun.Identity(SampleRun.Case(1.3)), restart: true);

        Assert.Empty(run.FinishedFrames(SampleRun.Grid));
        Assert.True(File.Exists(folder.PathOf("run/notes.txt")));
        Assert.Equal(1.3, run.Document.Identity.Case.Rig!.LensToFlowMetres);
    }

    [Fact]
    public void Open_RestartOfNothing_Begins()
    {
        using RunFolder run = Open(restart: true);
        Assert.Empty(run.FinishedFrames(SampleRun.Grid));
    }

    [Fact]
    public void Open_DamagedDocument_SaysSoAndRestartMends()
    {
        Open().Dispose();
        File.WriteAllText(folder.PathOf("run/run.json"), "{ \"format\": ");

        Assert.Contains("run.json is damaged", Assert.Throws<InputDataException>(() => Open()).Message, StringComparison.Ordinal);
        using RunFolder run = Open(restart: true);
        Assert.Equal("running", run.Document.State);
    }

    [Fact]
    public void ReadSummary_UnfinishedRun_SaysHowToGoOn()
    {
        Open().Dispose();

        Assert.Contains("no summary yet", Assert.Throws<InputDataException>(() => RunFolder.ReadSummary(Root)).Message, StringComparison.Ordinal);
        Assert.Contains("run.json", Assert.Throws<InputDataException>(() => RunFolder.ReadSummary(folder.Root)).Message, StringComparison.Ordinal);
    }

    private RunFolder Open(RunIdentity? identity = null, bool restart = false) =>
        RunFolder.Open(Root, identity ?? SampleRun.Identity(), new RunOpening { Restart = restart }, TimeProvider.System, CancellationToken.None);
}
