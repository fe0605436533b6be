"""Writers: drawings, paper and orders to text or bytes. None of them knows another."""
