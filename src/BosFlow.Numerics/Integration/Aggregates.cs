namespace BosFlow.Numerics.Integration;

/// <summary>Which coarse node each fine node belongs to, and the fine nodes of each coarse node.</summary>
internal sealed class Aggregates
{
    /// <summary>Sorts the fine nodes by coarse node.</summary>
    /// <param name="coarse">Coarse node of each fine node; -1 for none: the node is left to the smoother.</param>
    /// <param name="count">Number of coarse nodes.</param>
    public Aggregates(int[] coarse, int count)
    {
        Count = count;
        Start = new int[count + 1];
        foreach (int c in coarse)
        {
            if (c >= 0)
                Start[c + 1]++;
        }

        for (int c = 0; c < count; c++)
            Start[c + 1] += Start[c];
        Member = new int[Start[count]];
        int[] next = Start[..count];
        for (int i = 0; i < coarse.Length; i++)
        {
            if (coarse[i] >= 0)
                Member[next[coarse[i]]++] = i;
            else
                coarse[i] = count;
        }

        Coarse = coarse;
    }

    public int Count { get; }

    /// <summary>Columns of the grid that the coarse nodes form, row-major; 0 where they form none.</summary>
    public int Columns { get; init; }

    /// <summary>Coarse node of each fine node; <see cref="Count"/> for none.</summary>
    public int[] Coarse { get; }

    public int[] Start { get; }

    public int[] Member { get; }

    /// <summary>Sums of a fine plane over the members of coarse nodes from .. to.</summary>
    public void Restrict(float[] fine, int pad, float[] coarse, int coarsePad, int from, int to)
    {
        for (int c = from; c < to; c++)
        {
            float sum = 0;
            for (int k = Start[c]; k < Start[c + 1]; k++)
                sum += fine[Member[k] + pad];
            coarse[c + coarsePad] = sum;
        }
    }

    /// <summary>Adds to fine nodes from .. to what their coarse nodes hold.</summary>
    public void Prolong(float[] coarse, int coarsePad, float[] fine, int pad, int from, int to)
    {
        for (int i = from; i < to; i++)
            fine[i + pad] += coarse[Coarse[i] + coarsePad];
    }

    /// <summary>The coarse level: weights of links between the members of two coarse nodes summed (Galerkin's product with piecewise constants).</summary>
    public GraphLevel Contract(ILevel fine)
    {
        int[] start = new int[Count + 1];
        float[] excess = new float[Count];
        List<int> neighbour = new(6 * Count);
        List<float> weight = new(6 * Count);
        int[] place = new int[Count];
        Array.Fill(place, -1);
        Span<int> scratchNodes = stackalloc int[4];
        Span<float> scratchWeights = stackalloc float[4];
        for (int c = 0; c < Count; c++)
        {
            int first = neighbour.Count;
            double own = 0;
            for (int k = Start[c]; k < Start[c + 1]; k++)
            {
                own += fine.Excess(Member[k]);
                fine.Links(Member[k], scratchNodes, scratchWeights, out ReadOnlySpan<int> nodes, out ReadOnlySpan<float> weights);
                for (int l = 0; l < nodes.Length; l++)
                {
                    int other = Coarse[nodes[l]];
                    if (other == c)
                        continue;
                    if (other == Count)
                    {
                        own += weights[l];
                    }
                    else if (place[other] >= first)
                    {
                        weight[place[other]] += weights[l];
                    }
                    else
                    {
                        place[other] = neighbour.Count;
                        neighbour.Add(other);
                        weight.Add(weights[l]);
                    }
                }
            }

            excess[c] = (float)own;
            start[c + 1] = neighbour.Count;
        }

        return new GraphLevel(start, [.. neighbour], [.. weight], excess);
    }

    /// <summary>Two joinings in a row as one; what the second leaves to the smoother stays as the first joined it.</summary>
    public static Aggregates Compose(Aggregates first, Aggregates second)
    {
        int count = second.Count;
        int[] middle = new int[first.Count + 1];
        for (int c = 0; c < first.Count; c++)
            middle[c] = second.Coarse[c] < second.Count ? second.Coarse[c] : count++;
        middle[first.Count] = -1;
        int[] coarse = new int[first.Coarse.Length];
        for (int i = 0; i < coarse.Length; i++)
            coarse[i] = middle[first.Coarse[i]];
        return new Aggregates(coarse, count);
    }
}
