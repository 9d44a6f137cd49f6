using BosFlow.Cli.Running;

namespace BosFlow.Cli.Tests.Running;

public sealed class MemoryPlanTests
{
    private const long GiB = 1L << 30;

    [Theory]
    [InlineData(20, 8)]
    [InlineData(5, 4)]
    [InlineData(2, 1)]
    public void Fit_Limit_LowersThreadsUntilItFits(int limitGiB, int threads)
    {
        var remarks = new List<string>();
        var settings = new RunSettings { CasePath = "case.toml", Threads = 8, MaxMemoryBytes = limitGiB * GiB };

        RunSettings fitting = MemoryPlan.Fit(settings, 100 * GiB, count => (1 + count) * GiB, remarks.Add);

        Assert.Equal(threads, fitting.Threads);
        Assert.Equal(threads == 8 ? 0 : 1, remarks.Count);
    }

    [Fact]
    public void Fit_MachineTooSmallWithoutALimit_WarnsAndGoesOn()
    {
        var remarks = new List<string>();

        RunSettings fitting = MemoryPlan.Fit(new RunSettings { CasePath = "case.toml", Threads = 3 }, GiB, count => (1 + count) * GiB, remarks.Add);

        Assert.Equal(1, fitting.Threads);
        Assert.Contains("the run may end early", Assert.Single(remarks), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("4GiB", 4L << 30)]
    [InlineData("800 MB", 800_000_000L)]
    [InlineData("2.5g", 2684354560L)]
    [InlineData("64k", 65536L)]
    [InlineData("4", null)]
    [InlineData("-4GiB", null)]
    [InlineData("1e30GiB", null)]
    [InlineData("GiB", null)]
    public void TryRead_Amount_NeedsItsUnit(string text, long? bytes)
    {
        Assert.Equal(bytes, ByteText.TryRead(text));
    }
}
