using System.Globalization;
using System.Runtime.InteropServices;
using System.Text.Json;
using BosFlow.Benchmarks.Reporting;
using BosFlow.TestKit;

namespace BosFlow.Benchmarks.Density;

/// <summary>SciPy of Debian's packages on the same sparse system.</summary>
internal static class SciPySolver
{
    public static SolverResult Run(SolverScene scene, string method, int rounds)
    {
        using TemporaryFolder folder = new();
        int[] start = [0, .. scene.Matrix.Select(row => row.Count)];
        for (int i = 1; i < start.Length; i++)
            start[i] += start[i - 1];
        Write(folder, "start.i32", start);
        Write(folder, "column.i32", scene.Matrix.SelectMany(row => row.Keys).ToArray());
        Write(folder, "value.f64", scene.Matrix.SelectMany(row => row.Values).ToArray());
        Write(folder, "right.f64", scene.Right);
        string[] arguments = [Path.Combine(AppContext.BaseDirectory, "Density", "scipy_solver.py"), folder.Root, method, rounds.ToString(CultureInfo.InvariantCulture)];
        ProcessResult result = ProcessRunner.RunAsync(ProcessRunner.DebianPython, arguments).GetAwaiter().GetResult();
        if (result.ExitCode != 0)
            throw new InvalidOperationException($"SciPy ended with: {result.Error}. It needs the package python3-scipy.");
        JsonElement answer = JsonSerializer.Deserialize<JsonElement>(result.Output);
        double[] solution = MemoryMarshal.Cast<byte, double>(File.ReadAllBytes(folder.PathOf("solution.f64"))).ToArray();
        double[] seconds = [.. answer.GetProperty("seconds").EnumerateArray().Select(value => value.GetDouble())];
        return new SolverResult($"SciPy {answer.GetProperty("version").GetString()}, {method}", Median.Of(seconds), double.NaN, solution);
    }

    private static void Write<T>(TemporaryFolder folder, string name, T[] values)
        where T : unmanaged => File.WriteAllBytes(folder.PathOf(name), MemoryMarshal.AsBytes(values.AsSpan()));
}
