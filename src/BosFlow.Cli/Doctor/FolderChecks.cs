using System.Globalization;
using BosFlow.Cli.Forecasting;
using BosFlow.Cli.Running;

namespace BosFlow.Cli.Doctor;

/// <summary>Looks at the folders that a run would write into.</summary>
/// <param name="folder">The folder the user works in.</param>
/// <param name="temporary">The folder for temporary files.</param>
internal sealed class FolderChecks(string folder, string temporary)
{
    // A frame of 3840 x 2160 px with a vector every 16 px, as measured; a minute of them at 60 frames a second.
    private const long FrameBytes = 680_000;
    private const long LeastFrames = 3_600;

    // A forecast measures some frames there; an ample bound.
    private const long LeastTemporaryBytes = 300_000_000;

    private static readonly string[] NetworkFormats = ["nfs", "nfs4", "cifs", "smb2", "smb3", "smbfs", "9p", "afs", "lustre", "gpfs", "beegfs", "ceph", "glusterfs", "fuse.sshfs"];

    /// <summary>The checks, in the order of the list.</summary>
    public IReadOnlyList<MachineCheck> All() => [Room(), Writing(), Temporary()];

    private MachineCheck Room()
    {
        var disk = Disk.Of(folder);
        long frames = disk.FreeBytes / FrameBytes;
        string finding = string.Create(CultureInfo.InvariantCulture, $"{ByteText.Disk(disk.FreeBytes)} free in {folder}: results of about {frames} frames of 3840 x 2160 px");
        return frames >= LeastFrames
            ? new MachineCheck("disk", CheckState.Good, finding)
            : new MachineCheck("disk", CheckState.CouldBeBetter, finding, "make space, or choose another disk with --output; bosflow run CASE --dry-run tells what a run needs");
    }

    // A frame counts as finished as soon as its file has its name, so a file must get its name at once and whole.
    private MachineCheck Writing()
    {
        string format = Disk.Of(folder).Format;
        string first = Path.Combine(folder, $".bosflow-doctor-{Environment.ProcessId}");
        string second = first + "-renamed";
        try
        {
            File.WriteAllText(first, "new");
            File.WriteAllText(second, "old");
            File.Move(first, second, overwrite: true);
            if (File.Exists(first) || File.ReadAllText(second) != "new")
                return new MachineCheck("writing", CheckState.Missing, $"a renamed file does not replace another in {folder} ({format})", "choose a folder on a local disk with --output");
        }
        catch (Exception exception) when (exception is IOException or UnauthorizedAccessException)
        {
            return new MachineCheck("writing", CheckState.CouldBeBetter, $"{folder} is not writable: {exception.Message.TrimEnd('.')}", "change its permissions, or choose another folder with --output");
        }
        finally
        {
            Remove(first);
            Remove(second);
        }

        return NetworkFormats.Contains(format, StringComparer.OrdinalIgnoreCase)
            ? new MachineCheck("writing", CheckState.CouldBeBetter, $"{folder} is writable and on a network or shared file system ({format})", "results are safe there, but each frame waits for the network: a local disk is faster")
            : new MachineCheck("writing", CheckState.Good, $"{folder} is writable ({format}); a renamed file replaces another at once");
    }

    private MachineCheck Temporary()
    {
        long free = Directory.Exists(temporary) ? Disk.Of(temporary).FreeBytes : 0;
        string finding = $"{ByteText.Disk(free)} free in {temporary}";
        return free >= LeastTemporaryBytes
            ? new MachineCheck("temporary files", CheckState.Good, finding)
            : new MachineCheck("temporary files", CheckState.CouldBeBetter, finding, "a forecast (run --dry-run) needs some room there; set TMPDIR to a folder that has it");
    }

    private static void Remove(string file)
    {
        try
        {
            File.Delete(file);
        }
        catch (Exception exception) when (exception is IOException or UnauthorizedAccessException)
        {
            // What could not be written need not be removed.
        }
    }
}
