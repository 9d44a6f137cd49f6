using BosFlow.Displacement;
using BosFlow.Synthesis;

namespace BosFlow.Validation;

/// <summary>Gathers the errors of the vectors of a field that were measured without a flag.</summary>
internal static class FieldErrors
{
    /// <summary>What a flow displaces at the nodes of a field, px.</summary>
    /// <param name="field">The field.</param>
    /// <param name="flow">The flow.</param>
    public static Func<int, (double U, double V)> Truth(VectorField field, IFlowField flow) => node =>
    {
        FlowSample sample = flow.At(field.Grid.X(node % field.Grid.Columns), field.Grid.Y(node / field.Grid.Columns));
        return (sample.U, sample.V);
    };

    /// <summary>Adds both components.</summary>
    /// <param name="errors">Where they go.</param>
    /// <param name="field">The field.</param>
    /// <param name="truth">True displacement at a node, px.</param>
    /// <param name="takes">Whether a node counts; null = every one does.</param>
    public static void Add(ErrorStatistics errors, VectorField field, Func<int, (double U, double V)> truth, Func<int, bool>? takes = null)
    {
        foreach (int node in Measured(field, takes))
        {
            (double u, double v) = truth(node);
            errors.Add(field.U[node], u, field.SigmaU[node]);
            errors.Add(field.V[node], v, field.SigmaV[node]);
        }
    }

    /// <summary>Adds u alone.</summary>
    /// <param name="errors">Where they go.</param>
    /// <param name="field">The field.</param>
    /// <param name="truth">True u at a node, px.</param>
    public static void AddU(ErrorStatistics errors, VectorField field, Func<int, double> truth)
    {
        foreach (int node in Measured(field))
            errors.Add(field.U[node], truth(node), field.SigmaU[node]);
    }

    /// <summary>Adds v alone.</summary>
    /// <param name="errors">Where they go.</param>
    /// <param name="field">The field.</param>
    /// <param name="truth">True v at a node, px.</param>
    public static void AddV(ErrorStatistics errors, VectorField field, Func<int, double> truth)
    {
        foreach (int node in Measured(field))
            errors.Add(field.V[node], truth(node), field.SigmaV[node]);
    }

    /// <summary>Nodes without a flag, ascending.</summary>
    /// <param name="field">The field.</param>
    /// <param name="takes">Whether a node counts; null = every one does.</param>
    public static IEnumerable<int> Measured(VectorField field, Func<int, bool>? takes = null) =>
        Enumerable.Range(0, field.U.Length).Where(node => field.Flags[node] == VectorFlags.None && (takes is null || takes(node)));
}
