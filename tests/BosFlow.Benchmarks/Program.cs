namespace BosFlow.Benchmarks;

internal static class Program
{
    private static int Main(string[] args)
    {
        Console.Error.WriteLine("Name a measurement: accuracy, speed, peers.");
        return args.Length == 0 ? 2 : 0;
    }
}
