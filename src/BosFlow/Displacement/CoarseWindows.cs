namespace BosFlow.Displacement;

/// <summary>Cuts the windows of the coarse pass out of both pictures. Holds one pair at a time: one object a thread.</summary>
internal sealed class CoarseWindows
{
    private const double LeastUsableShare = 0.3;

    private readonly ReferenceTexture texture;
    private readonly CoarseReference reference;
    private readonly WindowLayout layout;

    public CoarseWindows(ReferenceTexture texture, CoarseReference reference)
    {
        this.texture = texture;
        this.reference = reference;
        layout = reference.Layout;
        Reference = new float[layout.Size * layout.Size];
        Moved = new float[layout.Size * layout.Size];
    }

    /// <summary>Grey levels of the reference window loaded last.</summary>
    public float[] Reference { get; }

    /// <summary>Grey levels of the frame's window loaded last.</summary>
    public float[] Moved { get; }

    /// <summary>Loads the reference window of a node; false where too little of it is usable. Unusable pixels get the mean of the usable ones, so that they neither match nor mismatch.</summary>
    public bool LoadReference(int node)
    {
        CoarseUsability usability = reference.UsabilityOf(node);
        if (usability == CoarseUsability.TooLittle)
            return false;
        (int left, int top) = reference.Corner(node);
        double sum = 0, count = 0;
        for (int y = 0; y < layout.Size; y++)
        {
            int row = ((top + y) * texture.Width) + left;
            texture.Level.AsSpan(row, layout.Size).CopyTo(Reference.AsSpan(y * layout.Size));
            for (int x = 0; x < layout.Size && usability == CoarseUsability.Partial; x++)
            {
                sum += texture.Level[row + x];
                count += texture.Usable[row + x];
            }
        }

        for (int y = 0; y < layout.Size && usability == CoarseUsability.Partial; y++)
        {
            int row = ((top + y) * texture.Width) + left;
            for (int x = 0; x < layout.Size; x++)
            {
                if (texture.Usable[row + x] == 0)
                    Reference[(y * layout.Size) + x] = (float)(sum / count);
            }
        }

        return true;
    }

    /// <summary>Loads the frame's window of a node, moved by whole pixels; false where too little of it is usable.</summary>
    public bool LoadMoved(int node, int shiftX, int shiftY, PreparedFrame frame)
    {
        (int left, int top) = reference.Corner(node);
        left += shiftX;
        top += shiftY;
        bool inside = left >= 0 && top >= 0 && left + layout.Size <= frame.Width && top + layout.Size <= frame.Height;
        return inside && frame.Defects is null ? CopyMoved(left, top, frame) : LoadPartly(left, top, frame);
    }

    private bool CopyMoved(int left, int top, PreparedFrame frame)
    {
        for (int y = 0; y < layout.Size; y++)
        {
            Span<float> row = Moved.AsSpan(y * layout.Size, layout.Size);
            ReadOnlySpan<float> levels = frame.Levels(((top + y) * frame.Width) + left, layout.Size, row);
            if (levels != row)
                levels.CopyTo(row);
        }

        return true;
    }

    private bool LoadPartly(int left, int top, PreparedFrame frame)
    {
        int used = 0;
        Span<float> room = stackalloc float[1];
        for (int y = 0; y < layout.Size; y++)
        {
            for (int x = 0; x < layout.Size; x++)
            {
                bool inside = (uint)(top + y) < (uint)frame.Height && (uint)(left + x) < (uint)frame.Width;
                int i = ((top + y) * frame.Width) + left + x;
                bool usable = inside && (frame.Defects is null || frame.Defects[i] == 0);
                Moved[(y * layout.Size) + x] = usable ? frame.Levels(i, 1, room)[0] : frame.MeanLevel;
                used += usable ? 1 : 0;
            }
        }

        return used >= LeastUsableShare * layout.Size * layout.Size;
    }
}
