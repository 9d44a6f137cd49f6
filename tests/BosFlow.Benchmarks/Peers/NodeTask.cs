using BosFlow.Benchmarks.Scenes;
using BosFlow.Displacement;

namespace BosFlow.Benchmarks.Peers;

/// <summary>Where every method of a comparison gives its displacement: the windows of BosFlow's grid away from the edges.</summary>
internal sealed class NodeTask
{
    /// <summary>Nodes nearer to an edge than this are left out: dense optical flow is weak there, and nobody measures there.</summary>
    public const int MarginPixels = 48;

    public NodeTask(BenchmarkScene scene, NodeGrid grid, int windowPixels)
    {
        Scene = scene;
        WindowPixels = windowPixels;
        var nodes = new List<int>();
        var left = new List<int>();
        var top = new List<int>();
        for (int node = 0; node < grid.Count; node++)
        {
            double x = grid.X(node % grid.Columns);
            double y = grid.Y(node / grid.Columns);
            if (x < MarginPixels || y < MarginPixels || x > scene.Reference.Width - 1 - MarginPixels || y > scene.Reference.Height - 1 - MarginPixels)
                continue;
            nodes.Add(node);
            left.Add((int)Math.Ceiling(x - (windowPixels / 2.0)));
            top.Add((int)Math.Ceiling(y - (windowPixels / 2.0)));
        }

        Nodes = nodes;
        Left = [.. left];
        Top = [.. top];
        TruthU = new double[scene.Frames.Count][];
        TruthV = new double[scene.Frames.Count][];
        for (int frame = 0; frame < scene.Frames.Count; frame++)
        {
            (double U, double V)[] truth = [.. nodes.Select(node => scene.Truth(frame, grid.X(node % grid.Columns), grid.Y(node / grid.Columns)))];
            TruthU[frame] = [.. truth.Select(value => value.U)];
            TruthV[frame] = [.. truth.Select(value => value.V)];
        }
    }

    public BenchmarkScene Scene { get; }

    public int WindowPixels { get; }

    /// <summary>Numbers of the compared nodes in BosFlow's grid.</summary>
    public IReadOnlyList<int> Nodes { get; }

    /// <summary>First column of each compared window, px.</summary>
    public int[] Left { get; }

    /// <summary>First row of each compared window, px.</summary>
    public int[] Top { get; }

    /// <summary>Exact displacement to the right, px: [frame][compared node].</summary>
    public double[][] TruthU { get; }

    /// <summary>Exact displacement down, px: [frame][compared node].</summary>
    public double[][] TruthV { get; }
}
