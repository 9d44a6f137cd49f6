namespace BosFlow.Footage;

/// <summary>Frames and where they come from: an image sequence or a video.</summary>
public interface IFootage
{
    /// <summary>What is known before reading.</summary>
    FootageInfo Info { get; }

    /// <summary>Reads the frames asked for, in their order, one at a time; never more than a few are held in memory.</summary>
    /// <param name="indices">Frame numbers, ascending, each within 0 to FrameCount - 1.</param>
    /// <param name="cancellationToken">Stops between two frames.</param>
    /// <returns>One entry for each index, in order; a frame that cannot be decoded comes with its failure instead of a picture.</returns>
    IEnumerable<Frame> Read(IReadOnlyList<int> indices, CancellationToken cancellationToken);

    /// <summary>Gives back a picture that <see cref="Read"/> gave and nobody reads any more: its memory may serve a later frame. Nobody has to. Safe to call from several threads.</summary>
    /// <param name="picture">The picture.</param>
    void GiveBack(GrayImage picture)
    {
    }
}
