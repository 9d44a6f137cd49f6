using System.Runtime.InteropServices;

namespace BosFlow.Results.Files;

/// <summary>Gives a whole file a second name that must be free. .NET's own move looks first and renames then, so that two files that come at the same moment may both take one name.</summary>
internal static class HardLink
{
    private const int NotPermitted = 1;
    private const int Exists = 17;
    private const int NotSupported = 95;
    private const int NoSuchCall = 38;

    /// <summary>Tries to give the name.</summary>
    /// <param name="path">The file.</param>
    /// <param name="name">Its second name, in the same folder.</param>
    /// <returns>Whether it has it; false where the name is taken; null where the file system knows no second names.</returns>
    /// <exception cref="IOException">The disk refuses.</exception>
    public static bool? TryGive(string path, string name)
    {
        if (!OperatingSystem.IsLinux())
            return null;
        if (Link(path, name) == 0)
            return true;
        return Marshal.GetLastPInvokeError() switch
        {
            Exists => false,
            NotPermitted or NotSupported or NoSuchCall => null,
            _ => throw FolderFlush.Failure(name),
        };
    }

    [DllImport("libc", EntryPoint = "link", SetLastError = true, CharSet = CharSet.Ansi, BestFitMapping = false, ThrowOnUnmappableChar = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int Link([MarshalAs(UnmanagedType.LPUTF8Str)] string path, [MarshalAs(UnmanagedType.LPUTF8Str)] string name);
}
