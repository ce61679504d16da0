"""What a batch needs: pieces to start, hours of hands, standing time, what is used up."""
