namespace BosFlow.Numerics.Integration;

/// <summary>The parts of a domain that equations connect.</summary>
internal sealed class Parts
{
    private Parts(int[] part, bool[] isAnchored)
    {
        Part = part;
        IsAnchored = isAnchored;
    }

    /// <summary>Part of each node; -1 outside of the domain and where neither an equation nor a known value reaches.</summary>
    public int[] Part { get; }

    public bool[] IsAnchored { get; }

    public static Parts Find(GradientProblem problem, double[] weightX, double[] weightY)
    {
        int columns = problem.Columns, nodes = problem.Domain.Length;
        int[] part = new int[nodes];
        Array.Fill(part, -1);
        List<bool> anchored = [];
        Stack<int> open = new();
        for (int first = 0; first < nodes; first++)
        {
            bool known = problem.Domain[first] && !double.IsNaN(problem.Known[first]);
            if (part[first] >= 0 || (!known && !HasEquation(first)))
                continue;
            int number = anchored.Count;
            bool holdsKnown = false;
            Mark(first);
            while (open.TryPop(out int i))
            {
                holdsKnown |= !double.IsNaN(problem.Known[i]);
                if (weightX[i] > 0)
                    Mark(i + 1);
                if (i > 0 && weightX[i - 1] > 0)
                    Mark(i - 1);
                if (weightY[i] > 0)
                    Mark(i + columns);
                if (i >= columns && weightY[i - columns] > 0)
                    Mark(i - columns);
            }

            anchored.Add(holdsKnown);

            void Mark(int i)
            {
                if (part[i] >= 0)
                    return;
                part[i] = number;
                open.Push(i);
            }
        }

        return new Parts(part, [.. anchored]);

        bool HasEquation(int i) =>
            weightX[i] > 0 || weightY[i] > 0 || (i > 0 && weightX[i - 1] > 0) || (i >= columns && weightY[i - columns] > 0);
    }
}
