using BosFlow.Footage;
using BosFlow.Numerics.LinearAlgebra;
using BosFlow.Numerics.Robust;

namespace BosFlow.Displacement;

/// <summary>What depends on the reference alone for each interrogation window: normal equations and texture. Computed once a run.</summary>
internal sealed class ReferenceWindows
{
    /// <summary>A window takes part when at least this share of its weight is usable.</summary>
    public const double LeastUsableShare = 0.5;

    // A window whose contrast or weakest gradient falls below this share of the picture's median has no texture worth measuring.
    private const double LeastRelativeContrast = 0.1;
    private const double LeastRelativeGradient = 0.02;
    private const int Terms = SymmetricInverse4.PackedLength;

    private ReferenceWindows(WindowLayout layout, float[] weights, int count)
    {
        Layout = layout;
        Weights = weights;
        double side = weights.Sum(w => (double)w);
        FullWeight = side * side;
        Inverse = new double[count * Terms];
        Flags = new VectorFlags[count];
        Weight = new double[count];
    }

    public WindowLayout Layout { get; }

    /// <summary>Weights along one side of a window.</summary>
    public float[] Weights { get; }

    /// <summary>Sum of the weights of a window without a missing pixel.</summary>
    public double FullWeight { get; }

    /// <summary>Packed inverse of the normal matrix of (gradient x, gradient y, level, 1), 10 entries a node.</summary>
    public double[] Inverse { get; }

    /// <summary>Packed inverse of one node's normal matrix.</summary>
    public ReadOnlySpan<double> InverseAt(int node) => Inverse.AsSpan(node * Terms, Terms);

    /// <summary>Masked, saturated or without texture in the reference already.</summary>
    public VectorFlags[] Flags { get; }

    /// <summary>Sum of the weights of the usable pixels.</summary>
    public double[] Weight { get; }

    public static ReferenceWindows Build(ReferenceTexture texture, WindowLayout layout, WindowWeighting weighting)
    {
        float[] weights = layout.Weights(weighting);
        var windows = new ReferenceWindows(layout, weights, layout.Grid.Count);
        double[] contrast = new double[layout.Grid.Count];
        double[] gradient = new double[layout.Grid.Count];
        windows.Sum(texture, contrast, gradient);
        windows.FlagLowTexture(contrast, gradient);
        return windows;
    }

    private void Sum(ReferenceTexture texture, double[] contrast, double[] gradient)
    {
        var sums = new WindowSums(Layout, Weights, texture.Width, Terms);
        float[][] products = new float[Terms][];
        for (int k = 0; k < Terms; k++)
            products[k] = new float[texture.Width];
        for (int y = 0; y < texture.Height; y++)
        {
            FillProducts(texture, y, products);
            int row = sums.Add(y, products);
            if (row < 0)
                continue;
            for (int column = 0; column < Layout.Grid.Columns; column++)
                Finish(texture, (row * Layout.Grid.Columns) + column, sums.Totals.AsSpan(column * Terms, Terms), contrast, gradient);
        }
    }

    private void Finish(ReferenceTexture texture, int node, ReadOnlySpan<double> matrix, double[] contrast, double[] gradient)
    {
        double weight = matrix[9];
        Weight[node] = weight;
        if (weight < LeastUsableShare * FullWeight || CentreIsExcluded(texture, node))
        {
            Flags[node] = MostlyGlare(texture, node) ? VectorFlags.Saturated : VectorFlags.Masked;
            return;
        }

        contrast[node] = Math.Sqrt(Math.Max(0, (matrix[5] / weight) - (matrix[8] / weight * (matrix[8] / weight))));
        double half = (matrix[0] - matrix[2]) / 2;
        gradient[node] = (((matrix[0] + matrix[2]) / 2) - Math.Sqrt((half * half) + (matrix[1] * matrix[1]))) / weight;
        if (!SymmetricInverse4.TryInvert(matrix, Inverse.AsSpan(node * Terms, Terms)))
            Flags[node] = VectorFlags.LowTexture;
    }

    // Order of the packed normal matrix: rows gx, gy, level, 1.
    private static void FillProducts(ReferenceTexture texture, int y, float[][] products)
    {
        int row = y * texture.Width;
        for (int x = 0; x < texture.Width; x++)
        {
            float gx = texture.GradientX[row + x], gy = texture.GradientY[row + x];
            float level = texture.Level[row + x], usable = texture.Usable[row + x];
            products[0][x] = gx * gx;
            products[1][x] = gy * gx;
            products[2][x] = gy * gy;
            products[3][x] = level * gx;
            products[4][x] = level * gy;
            products[5][x] = level * level;
            products[6][x] = gx;
            products[7][x] = gy;
            products[8][x] = level;
            products[9][x] = usable;
        }
    }

    private bool CentreIsExcluded(ReferenceTexture texture, int node)
    {
        (int left, int top) = Corner(node);
        int middle = Layout.Size / 2;
        return texture.Usable[((top + middle) * texture.Width) + left + middle] == 0;
    }

    private bool MostlyGlare(ReferenceTexture texture, int node)
    {
        if (texture.Defects is null)
            return false;
        (int left, int top) = Corner(node);
        int glare = 0, other = 0;
        for (int y = top; y < top + Layout.Size; y++)
        {
            for (int x = left; x < left + Layout.Size; x++)
            {
                int i = (y * texture.Width) + x;
                if (texture.Usable[i] != 0)
                    continue;
                if (texture.Defects[i] == PixelDefects.Glare)
                    glare++;
                else
                    other++;
            }
        }

        return glare > other;
    }

    private (int Left, int Top) Corner(int node) => (Layout.Left(node % Layout.Grid.Columns), Layout.Top(node / Layout.Grid.Columns));

    private void FlagLowTexture(double[] contrast, double[] gradient)
    {
        float medianContrast = Quantiles.Median(Measured(contrast));
        float medianGradient = Quantiles.Median(Measured(gradient));
        for (int node = 0; node < Flags.Length; node++)
        {
            bool flat = !(contrast[node] > LeastRelativeContrast * medianContrast) || !(gradient[node] > LeastRelativeGradient * medianGradient);
            if (Flags[node] == VectorFlags.None && flat)
                Flags[node] = VectorFlags.LowTexture;
        }
    }

    private float[] Measured(double[] values)
    {
        var kept = new List<float>(values.Length);
        for (int node = 0; node < values.Length; node++)
        {
            if (Flags[node] == VectorFlags.None)
                kept.Add((float)values[node]);
        }

        return [.. kept];
    }
}
