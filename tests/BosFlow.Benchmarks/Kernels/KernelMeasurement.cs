using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Diagnosers;
using BenchmarkDotNet.Jobs;
using BenchmarkDotNet.Running;
using BenchmarkDotNet.Toolchains.InProcess.Emit;

namespace BosFlow.Benchmarks.Kernels;

/// <summary>Times the hot loops beside their plain twins. In this process: a generated project would have to repeat the rules of this build.</summary>
internal static class KernelMeasurement
{
    public static void Run(string[] args)
    {
        IConfig config = DefaultConfig.Instance
            .AddJob(Job.ShortRun.WithToolchain(InProcessEmitToolchain.Instance))
            .AddDiagnoser(MemoryDiagnoser.Default);
        string[] choice = args.Length == 0 ? ["--filter", "*"] : args;
        BenchmarkSwitcher.FromTypes([typeof(DeformationBenchmark), typeof(CorrelationBenchmark), typeof(PrefilterBenchmark)]).Run(choice, config);
    }
}
