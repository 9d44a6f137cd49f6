using System.Collections.Concurrent;
using BosFlow.Footage;
using BosFlow.Numerics.Interpolation;

namespace BosFlow.Displacement;

/// <summary>
/// Takes the error of interpolation off a measured displacement: a frame without flow or noise is made from the finer reference, displaced exactly as was measured, and measured in the same way;
/// what this gives beyond the displacement it was made with is the error.
/// </summary>
/// <remarks>
/// Pixels sample dots too coarsely to tell their position exactly: waves shorter than two pixels appear as longer ones. That error depends on the pattern and on the fraction of a pixel alone, so a frame made
/// from the same pattern at the same place has it too. Working memory: about 12 bytes a pixel. Used by one frame at a time.
/// </remarks>
internal sealed class InterpolationCorrection
{
    private const int RowsPerPart = 16;
    private const int MostRounds = 6;
    private const float Near = 1e-4f;

    private readonly FineSpline underlying;
    private readonly PreparedFrame prepared;
    private readonly NodeState made;
    private readonly float[] picture;
    private readonly ConcurrentBag<Workspace> idle = [];

    public InterpolationCorrection(FineSpline underlying, NodeGrid grid, InterpolationOrder order)
    {
        this.underlying = underlying;
        prepared = new PreparedFrame(order);
        made = new NodeState(grid);
        picture = new float[underlying.Width * underlying.Height];
    }

    /// <summary>Takes the error off every node that was measured.</summary>
    /// <param name="refinement">The pass that measured.</param>
    /// <param name="predictor">The displacement with which its frame was deformed.</param>
    /// <param name="measured">Its result; changed.</param>
    /// <param name="threads">Threads.</param>
    /// <param name="cancellationToken">Stops between two parts of the picture.</param>
    public void Apply(IRefinementPass refinement, PredictorField predictor, NodeState measured, FrameThreads threads, CancellationToken cancellationToken)
    {
        int parts = (underlying.Height + RowsPerPart - 1) / RowsPerPart;
        threads.Run(parts, part => Make(part, predictor), cancellationToken);
        prepared.Load(new GrayImage(underlying.Width, underlying.Height, picture, float.NaN), threads, cancellationToken);
        measured.MotionU.CopyTo(made.MotionU, 0);
        measured.MotionV.CopyTo(made.MotionV, 0);
        made.Choice = WindowChoice.Keep;
        made.FitsShape = measured.FitsShape;
        measured.IsHalf.CopyTo(made.IsHalf, 0);
        refinement.Run(prepared, predictor, made, threads, cancellationToken);
        prepared.Release();
        for (int node = 0; node < made.Flags.Length; node++)
        {
            if (measured.Flags[node] != VectorFlags.None || made.Flags[node] != VectorFlags.None || made.IsHalf[node] != measured.IsHalf[node] || made.ShapeOrder[node] != measured.ShapeOrder[node])
                continue;
            (float u, float v) = predictor.AtNode(node);
            measured.U[node] -= made.U[node] - (u - made.MotionU[node]);
            measured.V[node] -= made.V[node] - (v - made.MotionV[node]);
        }
    }

    private void Make(int part, PredictorField predictor)
    {
        Workspace work = idle.TryTake(out Workspace? workspace) ? workspace : new Workspace(underlying.Width);
        for (int y = part * RowsPerPart; y < Math.Min((part + 1) * RowsPerPart, underlying.Height); y++)
        {
            Invert(predictor, y, work);
            Span<float> row = picture.AsSpan(y * underlying.Width, underlying.Width);
            FineSplineRows.Sample(underlying, y, work.Dx, work.Dy, row);
            for (int x = 0; x < row.Length; x++)
            {
                if (work.Outside[x])
                    row[x] = float.NaN;
            }
        }

        idle.Add(work);
    }

    // Where a pixel of the frame comes from: p with p + displacement(p) = pixel, by repeated substitution from the neighbour's.
    private void Invert(PredictorField predictor, int y, Workspace work)
    {
        float fromX = 0, fromY = 0;
        for (int x = 0; x < work.Dx.Length; x++)
        {
            for (int round = 0; round < MostRounds; round++)
            {
                (float u, float v) = predictor.At(x + fromX, y + fromY);
                float moved = MathF.Max(MathF.Abs(u + fromX), MathF.Abs(v + fromY));
                (fromX, fromY) = (-u, -v);
                if (moved < Near)
                    break;
            }

            bool isOutside = !(x + fromX >= 0 && x + fromX <= underlying.Width - 1 && y + fromY >= 0 && y + fromY <= underlying.Height - 1);
            work.Outside[x] = isOutside;
            (work.Dx[x], work.Dy[x]) = isOutside ? (0, 0) : (fromX, fromY);
        }
    }

    // A row of pixels: how far off each comes from, px, and whether that is beyond the picture.
    private sealed class Workspace(int width)
    {
        public float[] Dx { get; } = new float[width];

        public float[] Dy { get; } = new float[width];

        public bool[] Outside { get; } = new bool[width];
    }
}
