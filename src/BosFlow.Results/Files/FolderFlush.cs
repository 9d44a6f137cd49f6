using System.ComponentModel;
using System.Runtime.InteropServices;

namespace BosFlow.Results.Files;

/// <summary>Writes a folder's list of names to the disk, so that a file that was renamed is there after a power cut.</summary>
internal static class FolderFlush
{
    private const int ReadOnly = 0;
    private const int InvalidArgument = 22;
    private const int NotSupported = 95;

    /// <summary>Flushes a folder; .NET has no call for it, so the system's own is made.</summary>
    /// <param name="folder">The folder.</param>
    /// <exception cref="IOException">The disk refuses.</exception>
    public static void Flush(string folder)
    {
        if (!OperatingSystem.IsLinux())
            return;
        int handle = Open(folder, ReadOnly);
        if (handle < 0)
            throw Failure(folder);
        try
        {
            // Some network file systems keep names safe by themselves and know no such call for folders.
            if (Synchronise(handle) < 0 && Marshal.GetLastPInvokeError() is not (InvalidArgument or NotSupported))
                throw Failure(folder);
        }
        finally
        {
            _ = Close(handle);
        }
    }

    /// <summary>What the system's last call of this thread says of a path.</summary>
    internal static IOException Failure(string path)
    {
        int error = Marshal.GetLastPInvokeError();
        return new IOException($"{new Win32Exception(error).Message} : '{path}'", error);
    }

    [DllImport("libc", EntryPoint = "open", SetLastError = true, CharSet = CharSet.Ansi, BestFitMapping = false, ThrowOnUnmappableChar = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int Open([MarshalAs(UnmanagedType.LPUTF8Str)] string path, int flags);

    [DllImport("libc", EntryPoint = "fsync", SetLastError = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int Synchronise(int handle);

    [DllImport("libc", EntryPoint = "close", SetLastError = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int Close(int handle);
}
