using System.Globalization;
using System.Text;

namespace BosFlow.Results.Runs;

/// <summary>timing.csv: how long each frame took. Lines are only ever appended; kept apart from the results because it depends on the machine.</summary>
internal sealed class TimingJournal(string path)
{
    private const string Header = "frame,processing_s,cores\n";
    private readonly Lock gate = new();

    public void Append(int frame, double seconds)
    {
        string line = string.Create(CultureInfo.InvariantCulture, $"{frame},{seconds:0.######},{Environment.ProcessorCount}\n");
        lock (gate)
        {
            using var stream = new FileStream(path, FileMode.Append, FileAccess.Write, FileShare.ReadWrite);
            // One write call a line, so that lines of several processes do not mix.
            stream.Write(Encoding.UTF8.GetBytes(stream.Position == 0 ? Header + line : line));
        }
    }
}
