using System.Globalization;
using BosFlow.Displacement;
using BosFlow.Results.NetCdf;

namespace BosFlow.Results.Runs;

/// <summary>Finds the frames that are complete by reading every frame file against its checksums.</summary>
internal static class FrameInventory
{
    public static (HashSet<int> Finished, List<string> Damaged) Take(RunLayout layout, string identity, NodeGrid grid)
    {
        if (!Directory.Exists(layout.FramesFolder))
            return ([], []);
        string[] paths = [.. Directory.EnumerateFiles(layout.FramesFolder, "*.nc").Order(StringComparer.Ordinal)];
        var problems = new string?[paths.Length];
        var indices = new int?[paths.Length];
        Parallel.For(0, paths.Length, i => (indices[i], problems[i]) = Look(paths[i], identity, grid));
        return ([.. indices.OfType<int>()], [.. problems.OfType<string>()]);
    }

    private static (int? Index, string? Problem) Look(string path, string identity, NodeGrid grid)
    {
        string name = Path.GetFileNameWithoutExtension(path);
        if (!int.TryParse(name, NumberStyles.None, CultureInfo.InvariantCulture, out int index) || FrameFile.Name(index) != Path.GetFileName(path))
            return (null, $"{path} is not named as a frame of this program; it is left alone and not used.");
        try
        {
            NetCdfContent content = NetCdfFile.Read(path);
            if (!FrameFile.Belongs(content, index, identity))
                return (null, $"{path} belongs to another run or another frame; frame {index} is measured again.");
            return FrameFile.FromContent(content).Field is { } field && field.Grid == grid && FrameFile.IsFilled(field)
                ? (index, null)
                : (null, $"{path} holds another grid of vectors than this run; frame {index} is measured again.");
        }
        catch (InputDataException e)
        {
            return (null, $"Frame {index} is measured again: {e.Message}");
        }
    }
}
