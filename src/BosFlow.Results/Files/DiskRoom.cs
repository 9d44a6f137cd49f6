namespace BosFlow.Results.Files;

/// <summary>Looks for room on the disk of a folder before something is written, so that a full disk is met between two files and never within one.</summary>
/// <param name="folder">The folder.</param>
/// <param name="free">Tells the free bytes of the folder's disk.</param>
internal sealed class DiskRoom(string folder, Func<string, long> free)
{
    // Errors of Linux (errno(3)): no space left on device, quota exceeded.
    private const int NoSpace = 28;
    private const int QuotaExceeded = 122;

    /// <summary>Room on the disk of a folder as the system tells it; a quota of the user shows only when it is exceeded.</summary>
    public static DiskRoom Of(string folder) => new(folder, path => new DriveInfo(path).AvailableFreeSpace);

    /// <summary>Whether an error says that the disk or the user's share of it is full.</summary>
    public static bool IsFull(IOException exception) => exception is DiskFullException || exception.HResult is NoSpace or QuotaExceeded;

    /// <summary>Writes something where there is room for it and for more.</summary>
    /// <param name="bytes">What is written.</param>
    /// <param name="reserve">What must still fit afterwards, bytes.</param>
    /// <param name="write">Writes it; whole or not at all.</param>
    /// <exception cref="DiskFullException">There is no room.</exception>
    public void Write(long bytes, long reserve, Action write)
    {
        long available = free(folder);
        if (available < bytes + reserve)
            throw Full(bytes + reserve, available, null);
        try
        {
            write();
        }
        catch (IOException e) when (IsFull(e))
        {
            throw Full(bytes + reserve, free(folder), e);
        }
    }

    private DiskFullException Full(long needed, long available, IOException? cause) => new(
        FormattableString.Invariant($"The disk of {folder} is full: {needed / 1e6:0.0} MB are needed for what comes next and {available / 1e6:0.0} MB are free{(cause?.HResult == QuotaExceeded ? " (your quota there is used up)" : string.Empty)}. Nothing is lost: make space and start the same command again."), cause);
}
