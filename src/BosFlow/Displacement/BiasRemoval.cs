using System.Numerics;

namespace BosFlow.Displacement;

/// <summary>Takes the known part of the bias of interpolation off a displacement: amplitude times sin(2 pi u), u the displacement in the picture, averaged over the window as the match does. Working memory of one frame.</summary>
/// <remarks>
/// The amplitude is that of <see cref="AxisBias"/>. Where the frame was read at another displacement and its sums were moved since (<see cref="MovedSums"/>), the wave has the phase half-way between both: waves near two pixels make it, and these turn by half a turn a pixel (derived).
/// What it cannot know, dots whose fine end is not Gaussian, stays in sigma (<see cref="StatedSigma"/>).
/// </remarks>
internal sealed class BiasRemoval
{
    private readonly Component u;
    private readonly Component v;

    // Sums of the weights where every node was measured.
    private readonly float[] complete;

    /// <summary>Prepares the removal.</summary>
    /// <param name="amplitude">Amplitudes of the error of u and v, px.</param>
    /// <param name="grid">Nodes.</param>
    /// <param name="windowPixels">Side of a window, px.</param>
    public BiasRemoval((double X, double Y) amplitude, NodeGrid grid, int windowPixels)
    {
        // Part of the window that lies within half a spacing of a node, in spacings.
        double side = windowPixels / grid.Spacing;
        float[] weights = [.. Enumerable.Range(0, (int)Math.Ceiling((side + 1) / 2)).Select(i => (float)Math.Clamp((side / 2) + 0.5 - i, 0, 1))];
        weights[0] = (float)Math.Min(side, 1);
        u = new Component(amplitude.X, grid, weights);
        v = new Component(amplitude.Y, grid, weights);
        complete = new float[grid.Count];
        Array.Fill(complete, 1);
        u.Average(complete);
    }

    /// <summary>Corrects every node that was measured.</summary>
    /// <param name="state">Result of the last pass; changed.</param>
    /// <param name="threads">Threads.</param>
    /// <param name="cancellationToken">Stops between the components.</param>
    public void Apply(NodeState state, FrameThreads threads, CancellationToken cancellationToken) => threads.Run(2, component =>
    {
        if (component == 0)
            u.Apply(state.MotionU, state.U, state.MovedU, complete);
        else
            v.Apply(state.MotionV, state.V, state.MovedV, complete);
    }, cancellationToken);

    private sealed class Component
    {
        private readonly NodeGrid grid;
        private readonly float amplitude;
        private readonly float[] weights;
        private readonly float[] wave;
        private readonly float[] known;
        private readonly float[] wide;
        private readonly float[] mean;

        public Component(double amplitude, NodeGrid grid, float[] weights)
        {
            this.amplitude = (float)amplitude;
            this.grid = grid;
            this.weights = weights;
            wave = new float[grid.Count];
            known = new float[grid.Count];
            wide = new float[grid.Columns + (2 * weights.Length)];
            mean = new float[grid.Count];
        }

        public void Apply(float[] motion, float[] beyond, float[] moved, float[] complete)
        {
            bool isComplete = !RowArithmetic.AnyNaN(beyond);
            SetWave(motion, beyond, moved);
            Average(wave);
            if (!isComplete)
            {
                for (int node = 0; node < known.Length; node++)
                    known[node] = float.IsNaN(beyond[node]) ? 0 : 1;
                Average(known);
            }

            RowArithmetic.Ratios(wave, isComplete ? complete : known, 0, wave);
            RowArithmetic.AddTimes(beyond, wave, -amplitude);
        }

        /// <summary>Sums over the nodes of a window, in place.</summary>
        public void Average(float[] plane)
        {
            int reach = weights.Length;
            for (int y = 0; y < grid.Rows; y++)
            {
                Span<float> row = plane.AsSpan(y * grid.Columns, grid.Columns);
                row.CopyTo(wide.AsSpan(reach));
                Span<float> target = mean.AsSpan(y * grid.Columns, grid.Columns);
                target.Clear();
                for (int i = 1 - reach; i < reach; i++)
                    RowArithmetic.AddTimes(target, wide.AsSpan(reach + i, grid.Columns), weights[Math.Abs(i)]);
            }

            for (int y = 0; y < grid.Rows; y++)
            {
                Span<float> target = plane.AsSpan(y * grid.Columns, grid.Columns);
                target.Clear();
                for (int i = Math.Max(1 - reach, -y); i < Math.Min(reach, grid.Rows - y); i++)
                    RowArithmetic.AddTimes(target, mean.AsSpan((y + i) * grid.Columns, grid.Columns), weights[Math.Abs(i)]);
            }
        }

        private void SetWave(float[] motion, float[] beyond, float[] moved)
        {
            int lanes = Vector<float>.Count, i = 0;
            for (; i <= wave.Length - lanes; i += lanes)
            {
                Vector<float> u = new Vector<float>(motion, i) + new Vector<float>(beyond, i) - (0.5f * new Vector<float>(moved, i)), fraction = u - Vector.Round(u);
                Vector.ConditionalSelect(Vector.Equals(u, u), Vector.Sin(fraction * (2 * MathF.PI)), Vector<float>.Zero).CopyTo(wave, i);
            }

            for (; i < wave.Length; i++)
            {
                float u = motion[i] + beyond[i] - (0.5f * moved[i]), fraction = u - MathF.Round(u);
                wave[i] = float.IsNaN(u) ? 0 : MathF.Sin(fraction * (2 * MathF.PI));
            }
        }
    }
}
