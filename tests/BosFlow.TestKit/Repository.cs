namespace BosFlow.TestKit;

/// <summary>Where the repository is that the running tests were built from.</summary>
public static class Repository
{
    /// <summary>Absolute path of the folder that holds BosFlow.sln.</summary>
    /// <exception cref="DirectoryNotFoundException">The tests run outside a checkout.</exception>
    public static string Root { get; } = FindRoot();

    /// <summary>Absolute path of something in the repository.</summary>
    /// <param name="parts">Folders and file, relative to the root.</param>
    /// <returns>The path; nothing is looked up on disk.</returns>
    public static string PathOf(params string[] parts) => Path.Combine([Root, .. parts]);

    private static string FindRoot()
    {
        for (DirectoryInfo? folder = new(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "BosFlow.sln")))
                return folder.FullName;
        }

        throw new DirectoryNotFoundException($"No folder above {AppContext.BaseDirectory} holds BosFlow.sln.");
    }
}
