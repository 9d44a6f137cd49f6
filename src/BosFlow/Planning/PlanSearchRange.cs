namespace BosFlow.Planning;

/// <summary>What is looked through in a search.</summary>
/// <param name="Lenses">Focal lengths, m.</param>
/// <param name="FNumbers">f-numbers.</param>
/// <param name="LensToFlow">Z_A, m.</param>
/// <param name="FlowToBackground">Z_D, m.</param>
internal sealed record PlanSearchRange(IReadOnlyList<double> Lenses, IReadOnlyList<double> FNumbers, (double From, double To) LensToFlow, (double From, double To) FlowToBackground)
{
    // Without a limit nothing beyond three times the distance asked for is looked at.
    private const double Farthest = 3;
    private const double Nearest = 0.02;

    /// <summary>The range that limits leave.</summary>
    /// <exception cref="ConfigurationException">The limits contradict each other; one sentence for each problem.</exception>
    public static PlanSearchRange Of(PlanRequest request, PlanLimits limits)
    {
        IReadOnlyList<string> problems = Problems(limits);
        if (problems.Count > 0)
            throw new ConfigurationException(problems);
        IReadOnlyList<double> lenses = limits.FocalLengthsMetres.Count > 0 ? limits.FocalLengthsMetres : [request.Rig.FocalLengthMetres!.Value];
        double longest = limits.LongestBoardDistanceMetres ?? Farthest * (request.Rig.LensToFlowMetres + request.Rig.FlowToBackgroundMetres);
        double leastA = Math.Max(limits.ShortestLensToFlowMetres ?? 0, Math.Max(1.05 * lenses.Min(), Nearest * longest));
        double leastD = Math.Max(limits.ShortestFlowToBackgroundMetres ?? 0, Nearest * longest);
        double mostD = Math.Min(limits.LongestFlowToBackgroundMetres ?? longest, longest - leastA);
        leastD = Math.Min(leastD, limits.LongestFlowToBackgroundMetres ?? leastD);
        double mostA = longest - leastD;
        if (mostA < leastA || mostD < leastD)
            throw new ConfigurationException([FormattableString.Invariant($"The limits leave no room: {leastA * 1e3:F0} mm from the lens to the flow and {leastD * 1e3:F0} mm from there to the board are more than the longest distance to the board, {longest * 1e3:F0} mm; loosen one of them.")]);
        return new PlanSearchRange(
            lenses, limits.FNumbers.Count > 0 ? limits.FNumbers : [request.Rig.FNumber!.Value], (leastA, mostA), (leastD, mostD));
    }

    private static IReadOnlyList<string> Problems(PlanLimits limits)
    {
        var check = new RangeCheck();
        check.Length("longest distance to the board", limits.LongestBoardDistanceMetres);
        check.Length("shortest distance from the lens to the flow", limits.ShortestLensToFlowMetres);
        check.Length("shortest distance from the flow to the board", limits.ShortestFlowToBackgroundMetres);
        check.Length("longest distance from the flow to the board", limits.LongestFlowToBackgroundMetres);
        check.Length("largest width of the board", limits.LargestBoardWidthMetres);
        check.Length("largest height of the board", limits.LargestBoardHeightMetres);
        check.Length("least width of the view", limits.LeastViewWidthMetres);
        if (limits.ShortestFlowToBackgroundMetres > limits.LongestFlowToBackgroundMetres)
            check.Add(FormattableString.Invariant($"The shortest distance from the flow to the board, {limits.ShortestFlowToBackgroundMetres * 1e3:F0} mm, is longer than the longest, {limits.LongestFlowToBackgroundMetres * 1e3:F0} mm."));
        foreach (double focal in limits.FocalLengthsMetres)
            check.Positive("focal length to choose from", focal, 10, 1e3, "mm");
        foreach (double number in limits.FNumbers)
            check.Within("f-number to choose from", number, 0.5, 1000, 1, string.Empty);
        if (limits.FocalLengthsMetres.Count > 50 || limits.FNumbers.Count > 50)
            check.Add("At most 50 focal lengths and 50 f-numbers can be looked through.");
        return check.Problems;
    }
}
