namespace BosFlow.Benchmarks.Reporting;

/// <summary>Writes a report, whole or not at all.</summary>
internal static class ReportFile
{
    public static void Write(string path, string text)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        File.WriteAllText(path + ".part", text);
        File.Move(path + ".part", path, overwrite: true);
        Console.WriteLine(text);
        Console.Error.WriteLine($"written to {path}");
    }
}
