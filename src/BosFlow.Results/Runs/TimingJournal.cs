using System.Globalization;
using System.Text;

namespace BosFlow.Results.Runs;

/// <summary>timing.csv: how long each frame took. One process writes it, and only ever appends; kept apart from the results because it depends on the machine.</summary>
internal sealed class TimingJournal(string path)
{
    private const string Header = "frame,processing_s,cores\n";
    private readonly Lock gate = new();

    public void Append(int frame, double seconds)
    {
        string line = string.Create(CultureInfo.InvariantCulture, $"{frame},{seconds:0.######},{Environment.ProcessorCount}\n");
        lock (gate)
        {
            using var stream = new FileStream(path, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.Read);
            string before = stream.Length == 0 ? Header : EndsWithinALine(stream) ? "\n" : string.Empty;
            stream.Seek(0, SeekOrigin.End);
            stream.Write(Encoding.UTF8.GetBytes(before + line));
        }
    }

    // A process that was killed while it wrote.
    private static bool EndsWithinALine(FileStream stream)
    {
        stream.Seek(-1, SeekOrigin.End);
        return stream.ReadByte() != '\n';
    }
}
