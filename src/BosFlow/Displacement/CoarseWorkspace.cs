using System.Numerics;
using BosFlow.Numerics.Spectral;

namespace BosFlow.Displacement;

/// <summary>Working memory of one thread in the first pass.</summary>
internal sealed class CoarseWorkspace
{
    private readonly ReferenceTexture texture;
    private readonly CoarseReference reference;
    private WindowCorrelator? correlator;
    private CoarseWindows? windows;

    public CoarseWorkspace(ReferenceTexture texture, CoarseReference reference)
    {
        this.texture = texture;
        this.reference = reference;
        int perBatch = reference.Spectra?.WindowsPerBatch ?? 1;
        Spectral = reference.Spectra is null ? null : new ReferenceSpectra.Workspace(reference.Spectra);
        Peaks = new CorrelationPeak[Math.Max(perBatch, Vector<float>.Count)];
        Corners = new int[perBatch];
        Lanes = new (int, int, int)[Vector<float>.Count];
    }

    public ReferenceSpectra.Workspace? Spectral { get; }

    public CorrelationPeak[] Peaks { get; }

    public int[] Corners { get; }

    /// <summary>Windows that wait in <see cref="Correlator"/>.</summary>
    public (int Node, int ShiftX, int ShiftY)[] Lanes { get; }

    /// <summary>Correlation at full resolution; few frames need it.</summary>
    public WindowCorrelator Correlator => correlator ??= new WindowCorrelator(reference.Layout.Size, Vector<float>.Count);

    public CoarseWindows Windows => windows ??= new CoarseWindows(texture, reference);
}
