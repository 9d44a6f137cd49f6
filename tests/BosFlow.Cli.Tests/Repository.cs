namespace BosFlow.Cli.Tests;

/// <summary>Finds committed files from where the tests run.</summary>
internal static class Repository
{
    /// <summary>Folder with BosFlow.sln in it.</summary>
    public static string Root { get; } = FindRoot();

    /// <summary>Absolute path of a committed file.</summary>
    /// <param name="path">Path in the repository.</param>
    public static string File(string path) => Path.Combine(Root, path);

    private static string FindRoot()
    {
        DirectoryInfo? folder = new(AppContext.BaseDirectory);
        while (folder is not null && !System.IO.File.Exists(Path.Combine(folder.FullName, "BosFlow.sln")))
            folder = folder.Parent;
        return folder?.FullName ?? throw new InvalidOperationException("BosFlow.sln is not above the tests.");
    }
}
