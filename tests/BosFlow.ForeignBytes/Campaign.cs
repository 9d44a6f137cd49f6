using System.Diagnostics;

namespace BosFlow.ForeignBytes;

/// <summary>Has many mutants read by a process of its own, so that one that ends or stops it is counted and the next one is tried.</summary>
public static class Campaign
{
    /// <summary>Longest that a mutant may take; generous, since a busy machine is slow.</summary>
    public static readonly TimeSpan Longest = TimeSpan.FromSeconds(60);

    /// <summary>Reads a number of mutants from a first one on.</summary>
    public static async Task<IReadOnlyList<Verdict>> RunAsync(ForeignReader reader, int first, int count)
    {
        ArgumentNullException.ThrowIfNull(reader);
        List<Verdict> verdicts = [];
        while (verdicts.Count < count)
        {
            int before = verdicts.Count;
            Outcome? end = await WorkAsync(reader, first + before, first + count, verdicts).ConfigureAwait(false);
            if (end is { } fault && verdicts.Count < count)
                verdicts.Add(new Verdict(first + verdicts.Count, fault, "the process that read it"));
            else if (verdicts.Count == before)
                throw new InvalidOperationException($"The process that reads {reader.Name} gave no verdict.");
        }

        return verdicts;
    }

    // Null where the process came to its end by itself.
    private static async Task<Outcome?> WorkAsync(ForeignReader reader, int next, int end, List<Verdict> verdicts)
    {
        var start = new ProcessStartInfo("dotnet", [typeof(Campaign).Assembly.Location, reader.Name, FormattableString.Invariant($"{next}"), FormattableString.Invariant($"{end}")])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        using Process process = Process.Start(start) ?? throw new InvalidOperationException("The reading process did not start.");
        process.ErrorDataReceived += (_, _) => { };
        process.BeginErrorReadLine();
        while (true)
        {
            Task<string?> line = process.StandardOutput.ReadLineAsync();
            if (await Task.WhenAny(line, Task.Delay(Longest)).ConfigureAwait(false) != line)
            {
                process.Kill(entireProcessTree: true);
                return Outcome.Hung;
            }

            if (await line.ConfigureAwait(false) is not { } text)
                break;
            // Native libraries write to the same stream now and then.
            if (text.StartsWith(Program.Mark, StringComparison.Ordinal))
                verdicts.Add(Verdict.Parse(text[Program.Mark.Length..]));
        }

        await process.WaitForExitAsync().ConfigureAwait(false);
        return process.ExitCode == 0 ? null : Outcome.Died;
    }
}
