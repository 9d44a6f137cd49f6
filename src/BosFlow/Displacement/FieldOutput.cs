using System.Runtime.InteropServices;

namespace BosFlow.Displacement;

/// <summary>Writes the result out of a frame's working state.</summary>
internal static class FieldOutput
{
    private const int RowsPerPart = 16;

    /// <summary>Arrays for a result; every node of them is written later.</summary>
    public static VectorField Room(NodeGrid grid, DisplacementSettings settings)
    {
        return new VectorField
        {
            Grid = grid,
            U = Floats(),
            V = Floats(),
            SigmaU = Floats(),
            SigmaV = Floats(),
            Flags = GC.AllocateUninitializedArray<VectorFlags>(grid.Count),
            Correlation = Floats(),
            PeakRatio = Floats(),
            WindowSide = HasSides(settings) ? Floats() : null,
            ShapeOrder = HasOrders(settings) ? Floats() : null,
        };

        float[] Floats() => GC.AllocateUninitializedArray<float>(grid.Count);
    }

    /// <summary>Whether a field has the arrays that a result needs.</summary>
    public static bool Fits(VectorField field, NodeGrid grid, DisplacementSettings settings) =>
        field.Grid == grid && field.WindowSide is not null == HasSides(settings) && field.ShapeOrder is not null == HasOrders(settings);

    /// <summary>Writes the result.</summary>
    /// <param name="state">What was measured.</param>
    /// <param name="sigma">Uncertainty.</param>
    /// <param name="settings">Settings.</param>
    /// <param name="field">Its arrays, of any content (<see cref="Room"/>).</param>
    /// <param name="threads">Threads.</param>
    /// <param name="cancellationToken">Stops between two parts.</param>
    public static VectorField Build(NodeState state, StatedSigma sigma, DisplacementSettings settings, VectorField field, FrameThreads threads, CancellationToken cancellationToken)
    {
        int count = state.Grid.Count, partNodes = RowsPerPart * state.Grid.Columns;
        threads.Run((count + partNodes - 1) / partNodes, Fill, cancellationToken);
        return field;

        void Fill(int part)
        {
            int first = part * partNodes, length = Math.Min(count - first, partNodes);
            state.Flags.AsSpan(first, length).CopyTo(field.Flags.AsSpan(first));
            state.Correlation.AsSpan(first, length).CopyTo(field.Correlation.AsSpan(first));
            state.PeakRatio.AsSpan(first, length).CopyTo(field.PeakRatio.AsSpan(first));
            Span<float> At(float[] values) => values.AsSpan(first, length);
            RowArithmetic.Sums(At(state.MotionU), At(state.U), At(field.U));
            RowArithmetic.Sums(At(state.MotionV), At(state.V), At(field.V));
            sigma.OfShifts(first, At(state.SigmaU), At(state.ScatterU), state.CoarseVariance, At(field.SigmaU));
            sigma.OfShifts(first, At(state.SigmaV), At(state.ScatterV), state.CoarseVariance, At(field.SigmaV));
            if (IsPlain(state.Flags.AsSpan(first, length)) && field.WindowSide is null && field.ShapeOrder is null)
                return;
            for (int node = first; node < first + length; node++)
            {
                bool replaced = state.Flags[node].HasFlag(VectorFlags.OutlierReplaced), isMeasured = !replaced && !float.IsNaN(state.U[node]);
                if (replaced)
                {
                    field.SigmaU[node] = field.SigmaV[node] = float.NaN;
                }
                else if (state.IsHalf[node] || state.ShapeOrder[node] != 0)
                {
                    field.SigmaU[node] = sigma.Of(node, state.SigmaU[node], state.ScatterU[node], state.IsHalf[node], state.ShapeOrder[node], state.MissingU[node] + state.CoarseVariance);
                    field.SigmaV[node] = sigma.Of(node, state.SigmaV[node], state.ScatterV[node], state.IsHalf[node], state.ShapeOrder[node], state.MissingV[node] + state.CoarseVariance);
                }

                if (field.WindowSide is { } sides)
                    sides[node] = !isMeasured ? float.NaN : state.IsHalf[node] ? settings.WindowPixels / 2 : settings.WindowPixels;
                if (field.ShapeOrder is { } orders)
                    orders[node] = isMeasured ? state.ShapeOrder[node] : float.NaN;
            }
        }
    }

    private static bool IsPlain(ReadOnlySpan<VectorFlags> flags) => !MemoryMarshal.AsBytes(flags).ContainsAnyExcept((byte)0);

    private static bool HasSides(DisplacementSettings settings) => settings.Windows == WindowSizing.Adaptive;

    private static bool HasOrders(DisplacementSettings settings) => settings.Shape != WindowShape.Constant;
}
