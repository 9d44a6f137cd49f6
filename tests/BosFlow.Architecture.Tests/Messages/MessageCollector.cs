using System.Text.RegularExpressions;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace BosFlow.Architecture.Tests.Messages;

/// <summary>Finds in the sources what the program says when something is wrong or worth knowing.</summary>
internal static partial class MessageCollector
{
    private static readonly string[] Exceptions =
        ["InputDataException", "ConfigurationException", "WorkFailedException", "RunFailedException", "DiskFullException"];

    /// <summary>Every message, once, sorted.</summary>
    /// <param name="index">The sources.</param>
    public static IReadOnlyList<Message> Collect(SourceIndex index)
    {
        var text = new MessageText(index);
        return
        [
            .. Roots(index)
                .SelectMany(root => text.Of(root.Expression).Select(words => new Message(MessageGroups.Of(root.Expression.SyntaxTree.FilePath), root.Kind, Tidy(words))))
                .Where(message => Sentence().IsMatch(Placeholder().Replace(message.Text, string.Empty)))
                .DistinctBy(message => (message.Group, message.Text))
                .OrderBy(message => message.Group, StringComparer.Ordinal)
                .ThenBy(message => message.Kind)
                .ThenBy(message => message.Text, StringComparer.Ordinal),
        ];
    }

    private static IEnumerable<(MessageKind Kind, ExpressionSyntax Expression)> Roots(SourceIndex index)
    {
        foreach (ObjectCreationExpressionSyntax creation in index.Nodes<ObjectCreationExpressionSyntax>())
        {
            if (Exceptions.Contains(creation.Type.ToString()) && creation.ArgumentList is { Arguments.Count: > 0 } list)
                yield return (MessageKind.Problem, list.Arguments[0].Expression);
        }

        foreach (InvocationExpressionSyntax call in index.Nodes<InvocationExpressionSyntax>())
        {
            if (call.ArgumentList.Arguments.Count > 0 && KindOfCall(call) is { } kind)
                yield return (kind, call.ArgumentList.Arguments[^1].Expression);
        }

        // (ExitCode.Failed, [sentence])
        foreach (TupleExpressionSyntax pair in index.Nodes<TupleExpressionSyntax>())
        {
            if (pair.Arguments[0].ToString().StartsWith("ExitCode.", StringComparison.Ordinal))
                yield return (MessageKind.Problem, pair.Arguments[^1].Expression);
        }

        foreach (MemberDeclarationSyntax member in index.Nodes<MemberDeclarationSyntax>())
        {
            if (KindOfMember(member) is not { } kind)
                continue;
            foreach (ExpressionSyntax result in SourceIndex.Results(member))
                yield return (kind, result);
        }
    }

    // problems.Add(place, sentence), warnings.Add(sentence), talk.Warn(sentence), Tell(talk, code, [sentence]).
    private static MessageKind? KindOfCall(InvocationExpressionSyntax call)
    {
        string receiver = call.Expression is MemberAccessExpressionSyntax member ? member.Expression.ToString() : string.Empty;
        return SourceIndex.NameOf(call) switch
        {
            "Add" or "AddPlain" when receiver.Contains("warning", StringComparison.OrdinalIgnoreCase) => MessageKind.Warning,
            "Add" or "AddPlain" when receiver.Contains("problem", StringComparison.OrdinalIgnoreCase) => MessageKind.Problem,
            "Warn" => MessageKind.Warning,
            "Fail" => MessageKind.Problem,
            "Tell" when call.ArgumentList.Arguments[^1].Expression is CollectionExpressionSyntax => MessageKind.Problem,
            _ => null,
        };
    }

    private static MessageKind? KindOfMember(MemberDeclarationSyntax member)
    {
        (string name, string type) = member switch
        {
            MethodDeclarationSyntax method => (method.Identifier.Text, method.ReturnType.ToString()),
            PropertyDeclarationSyntax property => (property.Identifier.Text, property.Type.ToString()),
            _ => (string.Empty, string.Empty),
        };
        if (!type.Contains("string", StringComparison.Ordinal))
            return null;
        return WarningName().IsMatch(name) ? MessageKind.Warning : ProblemName().IsMatch(name) ? MessageKind.Problem : null;
    }

    private static string Tidy(string text) => Spaces().Replace(text, " ").Trim();

    [GeneratedRegex("Warning|Caution|Advice")]
    private static partial Regex WarningName();

    [GeneratedRegex("Problem|Fault|Failure|Refusal|InWords|UnknownWord|WrongKind|^TryRead$|Sentence$|Obstacle|^NoMatch$|^OtherUnit$")]
    private static partial Regex ProblemName();

    // Three words of its own at least.
    [GeneratedRegex(@"\w+\W+\w+\W+\w+.*")]
    private static partial Regex Sentence();

    [GeneratedRegex("<[^>]*>")]
    private static partial Regex Placeholder();

    [GeneratedRegex(@"\s+")]
    private static partial Regex Spaces();
}
