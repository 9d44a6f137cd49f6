using BosFlow.ForeignBytes.Mutation;
using BosFlow.Results.NetCdf;
using BosFlow.Results.Runs;
using BosFlow.Results.Tests;

namespace BosFlow.ForeignBytes.Readers;

/// <summary>The files of a finished run's folder, one of which is changed at a time.</summary>
internal static class RunInputs
{
    public static IReadOnlyList<Sample> Frames(string folder)
    {
        string file = Path.Combine(Write(folder), "frames", "000001.nc");
        return [new Sample(file, () => FrameFile.FromContent(NetCdfFile.Read(file)), Signing.Hdf5)];
    }

    public static IReadOnlyList<Sample> Summaries(string folder)
    {
        string run = Write(folder);
        return [.. new[] { "summary.nc", "reference.nc" }.Select(name => new Sample(Path.Combine(run, name), () => RunFolder.ReadSummary(run), Signing.Hdf5))];
    }

    public static IReadOnlyList<Sample> Documents(string folder) => OneOf(folder, "run.json");

    public static IReadOnlyList<Sample> Tables(string folder) => OneOf(folder, "frames.csv");

    private static IReadOnlyList<Sample> OneOf(string folder, string name)
    {
        string run = Write(folder);
        return [new Sample(Path.Combine(run, name), () => RunFolder.ReadSummary(run))];
    }

    private static string Write(string folder)
    {
        string path = Path.Combine(folder, "run");
        using RunFolder run = RunFolder.Open(path, SampleRun.Identity(), new RunOpening(), TimeProvider.System, CancellationToken.None);
        run.WriteFrame(SampleRun.Frame(1), 0.1);
        run.WriteSummary(SampleRun.Summary(), CancellationToken.None);
        return path;
    }
}
