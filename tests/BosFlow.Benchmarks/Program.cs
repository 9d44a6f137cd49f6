using BosFlow.Benchmarks.Boards;
using BosFlow.Benchmarks.DamagedInput;
using BosFlow.Benchmarks.Density;
using BosFlow.Benchmarks.Endurance;
using BosFlow.Benchmarks.Kernels;
using BosFlow.Benchmarks.Peers;
using BosFlow.Benchmarks.Performance;
using BosFlow.Benchmarks.Printing;
using BosFlow.Benchmarks.Speed;
using BosFlow.Benchmarks.Triage;

namespace BosFlow.Benchmarks;

/// <summary>Entry point: one measurement a call.</summary>
internal static class Program
{
    private const string Usage = """
        Name a measurement:
          peers   [--large] [--rounds N] [--output FILE]   BosFlow beside OpenCV's dense optical flow and phase correlation
          speed   [--large] [--rounds N] [--output FILE]   frames a second of the engine and of a whole run, memory at its peak
          performance [--rounds N] [--output FILE]         4K pictures with 75 % overlap beside OpenCV, bytes in and vectors out; cost of a pixel, memory of a frame
          density [--rounds N] [--output FILE]             integration beside MathNet and SciPy, Abel inversions on analytic pairs
          print   [--rounds N] [--output FILE]             a printed board of a million dots: time, size, truth of its drawings
          board-check [--output FILE]                      the check of printed boards on random exact photos
          foreign-bytes [--output FILE]                    every reader on mutated inputs: read, refused, or at fault
          endurance [--quick] [--output FILE]              runs that are killed, stopped, short of disk, or of 10,000 frames
          triage  [--tuning | --timing [--rounds N]] [--output FILE]  the judgement on 40 compressed takes, half with one planted fault; the time for ten minutes of 3840 x 2160
          kernels [BenchmarkDotNet options]                the hot loops beside their plain twins
        --large measures 3840 x 2160 too. Without --output the tables go to docs/validation/peers.md, speed.md, performance.md, density-solvers.md, printing.md, board-check.md, foreign-bytes.md, endurance.md and triage.md.
        """;

    private static int Main(string[] args)
    {
        switch (args)
        {
            case ["peers", .. string[] rest] when MeasurementOptions.TryParse(rest, "peers.md", out MeasurementOptions? options):
                PeerMeasurement.Run(options);
                return 0;
            case ["speed", .. string[] rest] when MeasurementOptions.TryParse(rest, "speed.md", out MeasurementOptions? options):
                SpeedMeasurement.Run(options);
                return 0;
            case ["performance", .. string[] rest] when MeasurementOptions.TryParse(rest, "performance.md", out MeasurementOptions? options):
                PerformanceMeasurement.Run(options);
                return 0;
            case ["density", .. string[] rest] when MeasurementOptions.TryParse(rest, "density-solvers.md", out MeasurementOptions? options):
                DensityMeasurement.Run(options);
                return 0;
            case ["print", .. string[] rest] when MeasurementOptions.TryParse(rest, "printing.md", out MeasurementOptions? options):
                PrintMeasurement.Run(options);
                return 0;
            case ["board-check", .. string[] rest] when MeasurementOptions.TryParse(rest, "board-check.md", out MeasurementOptions? options):
                BoardCheckMeasurement.Run(options);
                return 0;
            case ["foreign-bytes", .. string[] rest] when MeasurementOptions.TryParse(rest, "foreign-bytes.md", out MeasurementOptions? options):
                return MutantMeasurement.Run(options);
            case ["endurance", .. string[] rest] when MeasurementOptions.TryParse([.. rest.Where(word => word != "--quick")], "endurance.md", out MeasurementOptions? options):
                EnduranceMeasurement.Run(options, quick: rest.Contains("--quick"));
                return 0;
            case ["triage", "--tuning", .. string[] rest] when MeasurementOptions.TryParse(rest, "triage-tuning.md", out MeasurementOptions? options):
                TriageMeasurement.Run(options, TriageMeasurement.TuningSeed, withTiming: false);
                return 0;
            case ["triage", .. string[] rest] when MeasurementOptions.TryParse([.. rest.Where(word => word != "--timing")], "triage.md", out MeasurementOptions? options):
                TriageMeasurement.Run(options, TriageMeasurement.ProofSeed, rest.Contains("--timing"));
                return 0;
            case ["kernels", .. string[] rest]:
                KernelMeasurement.Run(rest);
                return 0;
            default:
                Console.Error.WriteLine(Usage);
                return 2;
        }
    }
}
