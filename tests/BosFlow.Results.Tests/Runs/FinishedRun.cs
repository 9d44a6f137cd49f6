using BosFlow.Results.Runs;
using BosFlow.TestKit;

namespace BosFlow.Results.Tests.Runs;

/// <summary>The folder of an invented run with its summary written, shared by tests that only read it.</summary>
public sealed class FinishedRun : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public FinishedRun()
    {
        using RunFolder run = RunFolder.Open(Root, SampleRun.Identity(), new RunOpening(), TimeProvider.System, CancellationToken.None);
        run.WriteSummary(SampleRun.Summary(), CancellationToken.None);
    }

    public string Root => Path.Combine(folder.Root, "run");

    public string File(string name) => Path.Combine(Root, name);

    public void Dispose() => folder.Dispose();
}
