namespace BosFlow.Pipeline;

/// <summary>Notices when a file that a run is made from changes while the run works. Safe to call from several threads.</summary>
public interface ISourceWatch
{
    /// <summary>Looks at the file that a frame was read from.</summary>
    /// <param name="index">Number of the frame in the footage.</param>
    /// <param name="cancellationToken">Stops the look.</param>
    /// <exception cref="InputDataException">It changed since the run was prepared.</exception>
    void CheckFrame(int index, CancellationToken cancellationToken);

    /// <summary>Looks at every file of the run.</summary>
    /// <param name="cancellationToken">Stops between two files.</param>
    /// <exception cref="InputDataException">One of them changed since the run was prepared.</exception>
    void CheckAll(CancellationToken cancellationToken);
}
