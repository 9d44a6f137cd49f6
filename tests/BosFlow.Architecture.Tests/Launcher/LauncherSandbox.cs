using BosFlow.TestKit;

namespace BosFlow.Architecture.Tests.Launcher;

/// <summary>
/// The launcher in a small repository of its own, on a machine made of stand-ins: its "dotnet", "ldconfig", "apt-get",
/// "sudo" and "id" are scripts that write down how they were called.
/// </summary>
internal sealed class LauncherSandbox : IDisposable
{
    private const string CompleteLibraries =
        "libgtk-3.so.0 (libc6,x86-64) => /x\nlibatomic.so.1 (libc6,x86-64) => /x\nlibdrm.so.2 (libc6,x86-64) => /x\n";

    private readonly TemporaryFolder folder = new();

    public LauncherSandbox()
    {
        Home = Path.GetDirectoryName(folder.PathOf("my repository", "bosflow"))!;
        File.Copy(Repository.PathOf("bosflow"), Launcher);
        Source = folder.Write("my repository/src/BosFlow.Cli/Program.cs", "first");
        folder.Write("my repository/src/BosFlow.Cli/Other.cs", "first");
        foreach (string file in (string[])["Directory.Build.props", "Directory.Packages.props", "global.json"])
            folder.Write($"my repository/{file}", "");
        folder.Write("libraries", CompleteLibraries);
        Tool("ldconfig", "cat \"$SANDBOX/libraries\"");
        Tool("id", "echo 0");
        Tool("sudo", "exit 1");
        Tool("apt-get", "echo \"$*\" >>\"$SANDBOX/apt-calls\"; [[ -e $SANDBOX/apt-fails ]] && exit 100; cp \"$SANDBOX/all-libraries\" \"$SANDBOX/libraries\"");
        folder.Write("all-libraries", CompleteLibraries);
        Tool("dotnet", """
            case "$1" in
                --list-sdks) cat "$SANDBOX/sdks" ;;
                publish)
                    echo build >>"$SANDBOX/builds"
                    [[ -e $SANDBOX/build-fails ]] && { echo "Program.cs(1,1): error CS1002: ; expected"; exit 1; }
                    sleep 0.3
                    while [[ $1 != -o ]]; do shift; done
                    cp "$SANDBOX/my repository/src/BosFlow.Cli/Program.cs" "$2/BosFlow.Cli.dll" ;;
                *)
                    echo "running $(cat "$1") in $PWD with:"
                    shift
                    printf '<%s>\n' "$@"
                    exit 3 ;;
            esac
            """);
        folder.Write("sdks", "10.0.100 [/x]\n");
    }

    /// <summary>Folder of the repository; its name has spaces.</summary>
    public string Home { get; }

    /// <summary>Path of the launcher.</summary>
    public string Launcher => Path.Combine(Home, "bosflow");

    /// <summary>A source file of the program.</summary>
    public string Source { get; }

    /// <summary>How often a build was started.</summary>
    public int Builds => Lines("builds").Length;

    /// <summary>How apt-get was called.</summary>
    public IReadOnlyList<string> AptCalls => Lines("apt-calls");

    /// <summary>Writes a file beside the repository.</summary>
    public string Write(string name, string text) => folder.Write(name, text);

    /// <summary>Replaces one of the machine's tools.</summary>
    public void Tool(string name, string script)
    {
        string path = folder.Write($"tools/{name}", $"#!/usr/bin/env bash\n{script}\n");
        File.SetUnixFileMode(path, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
    }

    /// <summary>Makes and names a folder beside the repository.</summary>
    public string Folder(string name) => Directory.CreateDirectory(folder.PathOf(name)).FullName;

    /// <summary>Starts the launcher.</summary>
    public Task<ProcessResult> RunAsync(string[] arguments, string? launcher = null, string? workingDirectory = null) =>
        ProcessRunner.RunAsync(
            launcher ?? Launcher,
            arguments,
            workingDirectory ?? folder.Root,
            new Dictionary<string, string?>
            {
                ["PATH"] = $"{folder.PathOf("tools")}:{Environment.GetEnvironmentVariable("PATH")}",
                ["SANDBOX"] = folder.Root,
                ["LD_LIBRARY_PATH"] = null,
            },
            CancellationToken.None);

    public void Dispose() => folder.Dispose();

    private string[] Lines(string name)
    {
        string path = folder.PathOf(name);
        return File.Exists(path) ? File.ReadAllLines(path) : [];
    }
}
