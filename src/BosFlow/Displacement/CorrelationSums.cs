using System.Numerics;

namespace BosFlow.Displacement;

/// <summary>Sums that a normalised correlation is made of, row by row.</summary>
internal struct CorrelationSums
{
    private double a;
    private double b;
    private double aa;
    private double ab;
    private double bb;
    private int count;

    /// <summary>Zero-mean normalised correlation of what was added; 0 without contrast.</summary>
    public readonly double Correlation
    {
        get
        {
            double energy = (aa - (a * a / count)) * (bb - (b * b / count));
            return energy > 0 ? (ab - (a * b / count)) / Math.Sqrt(energy) : 0;
        }
    }

    /// <summary>Adds a row of pixels of both pictures; their number is a multiple of the vector's lanes.</summary>
    public void Add(ReadOnlySpan<float> first, ReadOnlySpan<float> second)
    {
        Vector<float> sumA = Vector<float>.Zero, sumB = sumA, sumAA = sumA, sumAB = sumA, sumBB = sumA;
        for (int x = 0; x < first.Length; x += Vector<float>.Count)
        {
            Vector<float> wideA = new(first[x..]), wideB = new(second[x..]);
            sumA += wideA;
            sumB += wideB;
            sumAA += wideA * wideA;
            sumAB += wideA * wideB;
            sumBB += wideB * wideB;
        }

        a += Vector.Sum(sumA);
        b += Vector.Sum(sumB);
        aa += Vector.Sum(sumAA);
        ab += Vector.Sum(sumAB);
        bb += Vector.Sum(sumBB);
        count += first.Length;
    }
}
