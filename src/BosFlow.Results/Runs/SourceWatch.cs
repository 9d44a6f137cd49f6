using System.Collections.Concurrent;
using BosFlow.Pipeline;

namespace BosFlow.Results.Runs;

/// <summary>
/// Notices when a file of a run changes after its hash was taken: by its length and time of change, which costs nothing,
/// and where those differ by its hash. A file that was only touched is no other file.
/// </summary>
public sealed class SourceWatch : ISourceWatch
{
    private readonly IReadOnlyList<string> footage;
    private readonly IReadOnlyList<(string Path, (long Length, DateTime Changed)? Stamp)> stamps;
    private readonly ConcurrentDictionary<int, (long Length, DateTime Changed)> touched = new();
    private Dictionary<string, string> hashes = [];

    private SourceWatch(IReadOnlyList<string> footage, IReadOnlyList<(string Path, (long Length, DateTime Changed)? Stamp)> stamps) =>
        (this.footage, this.stamps) = (footage, stamps);

    /// <summary>Notes how the files are; to be called before their hashes are taken.</summary>
    /// <param name="footage">Files of the footage, absolute paths: one a frame, or one for all.</param>
    /// <param name="others">All other files of the run.</param>
    public static SourceWatch Begin(IReadOnlyList<string> footage, IReadOnlyList<string> others)
    {
        ArgumentNullException.ThrowIfNull(footage);
        ArgumentNullException.ThrowIfNull(others);
        return new SourceWatch(footage, [.. footage.Concat(others).Select(path => (path, Stamp(path)))]);
    }

    /// <summary>Takes the hashes that the files must keep.</summary>
    /// <param name="inputs">The hashed files, in the order of the paths that the watch began with.</param>
    /// <returns>This watch.</returns>
    public SourceWatch With(IReadOnlyList<RunInput> inputs)
    {
        ArgumentNullException.ThrowIfNull(inputs);
        var taken = new Dictionary<string, string>();
        for (int i = 0; i < stamps.Count; i++)
            taken[stamps[i].Path] = inputs[i].Sha256;
        return new SourceWatch(footage, stamps) { hashes = taken };
    }

    /// <inheritdoc/>
    public void CheckFrame(int index, CancellationToken cancellationToken) => Check(footage.Count == 1 ? 0 : index, cancellationToken);

    /// <inheritdoc/>
    public void CheckAll(CancellationToken cancellationToken)
    {
        for (int i = 0; i < stamps.Count; i++)
        {
            cancellationToken.ThrowIfCancellationRequested();
            Check(i, cancellationToken);
        }
    }

    private void Check(int position, CancellationToken cancellationToken)
    {
        (string path, (long, DateTime)? stamp) = stamps[position];
        (long, DateTime)? now = Stamp(path);
        if (now is not null && (now == stamp || (touched.TryGetValue(position, out (long, DateTime) accepted) && now == accepted)))
            return;
        if (now is null || InputHashing.Hash(string.Empty, [path], cancellationToken)[0].Sha256 != hashes[path])
        {
            throw new InputDataException(
                $"{path} {(now is null ? "is gone" : "was changed")} while the run was at work, so it was stopped before anything of the other content was kept. Put the file back as it was and start the same command again; or begin anew with --restart once nothing changes any more.");
        }

        touched[position] = now.Value;
    }

    private static (long Length, DateTime Changed)? Stamp(string path)
    {
        var file = new FileInfo(path);
        return file.Exists ? (file.Length, file.LastWriteTimeUtc) : null;
    }
}
